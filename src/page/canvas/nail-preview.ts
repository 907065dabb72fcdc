import { pathData } from '../../export/writers/svg.ts';
import { linesForNails, type NewNail } from '../../part/edit/new-nails.ts';
import type { Bench } from '../state/store.ts';
import { toScreen } from './view-transform.ts';
import type { Stage } from './viewport.ts';

/** As large as the nail will be. */
const RING_PX = 8;
/** From the ring to the words over it. */
const WORDS_PX = 34;

/** While a nail is to be set: the lines that take one, and the nail where a mouse would set it. */
export class NailGhost {
  private readonly lines;
  private readonly ring;
  private readonly words;
  private isShown = false;
  private nail: NewNail | undefined;

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
  ) {
    const layer = stage.layer('setting').attr('aria-hidden', 'true');
    this.lines = layer.path().addClass('takes');
    this.ring = layer.circle(2 * RING_PX).addClass('ghost');
    this.words = layer.plain('').addClass('middle');
    stage.moved(() => this.draw());
    // Where the mouse would set it by now, its next move tells.
    bench.changed(() => {
      if (this.isShown) this.show(undefined);
    });
    this.draw();
  }

  take(isShown: boolean): void {
    this.isShown = isShown;
    this.stage.svg.node.classList.toggle('nailing', isShown);
    this.show(undefined);
  }

  show(nail: NewNail | undefined): void {
    this.nail = nail;
    this.draw();
  }

  private draw(): void {
    const { made, bare, length } = this.bench;
    const lines = made && this.isShown ? linesForNails(made.part) : [];
    this.lines.attr('d', lines.map((line) => pathData(line)).join(''));
    this.stage.place(this.lines);
    const { nail } = this;
    this.ring.attr('visibility', nail ? 'visible' : 'hidden');
    this.words.node.textContent = nail ? `${nail.what} ${bare(nail.at.x)}, ${length(nail.at.y)}` : '';
    if (!nail) return;
    const { x, y } = toScreen(this.stage.view, nail.at);
    this.ring.center(x, y);
    this.words.attr({ x, y: y - WORDS_PX });
  }
}
