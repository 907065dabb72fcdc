import { byId, updateText } from '../dom.ts';
import type { Store } from './store.ts';

/** What has come of a file, on the sheet: it stands until the hand does something after it. */
export class FileStatus {
  private readonly node = byId('file-said');
  /** What comes while the hand drags stands on after it lets go: only its next move takes it away. */
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
