import { byId, updateText } from '../dom.ts';
import type { Store } from './store.ts';

/** The result of a file action, shown on the drawing until the next change. */
export class FileStatus {
  private readonly node = byId('file-said');
  /** A message that arrives during a drag stays when it ends: only the next change removes it. */
  private hasBegun = false;

  constructor(bench: Store) {
    for (const name of ['pointerdown', 'keydown'] as const)
      window.addEventListener(
        name,
        () => {
          this.hasBegun = true;
        },
        { capture: true },
      );
    byId('drawing').addEventListener('pointerdown', () => this.show(''));
    bench.onChange(() => {
      if (this.hasBegun) updateText(this.node, '');
    });
  }

  show(words: string): void {
    this.hasBegun = false;
    updateText(this.node, words);
  }
}
