import { byId, write } from '../dom.ts';
import type { Bench } from './store.ts';

/** What has come of a file, on the sheet: it stands until the hand does something after it. */
export class FileSaid {
  private readonly node = byId('file-said');
  /** What comes while the hand drags stands on after it lets go: only its next move takes it away. */
  private hasBegun = false;

  constructor(bench: Bench) {
    for (const name of ['pointerdown', 'keydown'] as const)
      window.addEventListener(
        name,
        () => {
          this.hasBegun = true;
        },
        { capture: true },
      );
    byId('drawing').addEventListener('pointerdown', () => this.say(''));
    bench.changed(() => {
      if (this.hasBegun) write(this.node, '');
    });
  }

  say(words: string): void {
    this.hasBegun = false;
    write(this.node, words);
  }
}
