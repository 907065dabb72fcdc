import { byId, updateText } from '../dom.ts';
import type { Store } from './store.ts';

export class FileStatus {
  private readonly node = byId('file-said');
  /** A message that arrives during a drag stays when it ends: only the next change removes it. */
  private hasBegun = false;

  constructor(store: Store) {
    const begin = (): void => {
      this.hasBegun = true;
    };
    for (const name of ['pointerdown', 'keydown']) window.addEventListener(name, begin, { capture: true });
    byId('drawing').addEventListener('pointerdown', () => this.show(''));
    store.onChange(() => {
      if (this.hasBegun) updateText(this.node, '');
    });
  }

  show(words: string): void {
    this.hasBegun = false;
    updateText(this.node, words);
  }
}
