import { pathData } from '../../export/writers/svg.ts';
import { linesForNails, type NewNail } from '../../part/edit/new-nails.ts';
import type { Store } from '../state/store.ts';
import type { Viewport } from './viewport.ts';

const RING_PX = 8;
const WORDS_PX = 34;

export class NailPreview {
  private readonly lines;
  private readonly ring;
  private readonly words;
  private isActive = false;
  private nail: NewNail | undefined;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
  ) {
    const layer = viewport.layer('setting').attr('aria-hidden', 'true');
    this.lines = layer.path().addClass('takes');
    this.ring = layer.circle(2 * RING_PX).addClass('ghost');
    this.words = layer.plain('');
    viewport.onViewChange(() => this.draw());
    // The next move of the mouse shows where the nail would be now.
    store.onChange(() => {
      if (this.isActive) this.show(undefined);
    });
    this.draw();
  }

  setActive(isShown: boolean): void {
    this.isActive = isShown;
    this.viewport.svg.node.classList.toggle('nailing', isShown);
    this.show(undefined);
  }

  show(nail: NewNail | undefined): void {
    this.nail = nail;
    this.draw();
  }

  private draw(): void {
    const { evaluated, ruleText, lengthText } = this.store;
    const lines = evaluated && this.isActive ? linesForNails(evaluated.part) : [];
    this.lines.attr('d', lines.map((line) => pathData(line)).join(''));
    this.viewport.alignToPart(this.lines);
    const { nail } = this;
    this.ring.attr('visibility', nail ? 'visible' : 'hidden');
    this.words.node.textContent = nail ? `${nail.what} ${ruleText(nail.at.x)}, ${lengthText(nail.at.y)}` : '';
    if (!nail) return;
    const { x, y } = this.viewport.toScreen(nail.at);
    this.ring.center(x, y);
    this.words.attr({ x, y: y - WORDS_PX });
  }
}
