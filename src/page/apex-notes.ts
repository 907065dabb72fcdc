import { JOIN_MM } from '../curves/tolerance.ts';
import type { Bench } from './bench.ts';
import type { Stage } from './stage.ts';
import { toScreen } from './view.ts';

const TICK_PX = 12;
/** From the apex to the baseline of its words, above it and below. */
const [ABOVE_PX, BELOW_PX] = [20, 34];

/** A pencil tick and its reading at every apex that no grip stands in: a nail off the middle is not the apex. */
export class ApexNotes {
  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
  ) {
    stage.moved(() => this.draw());
    bench.changed(() => this.draw());
  }

  draw(): void {
    const layer = this.stage.layer('apexes').clear();
    const { made, isTrue, bare, length } = this.bench;
    layer.node.classList.toggle('faint', !isTrue);
    if (!made) return;
    const taken = made.grips.map(({ at }) => at);
    for (const { apex, endAngles } of made.figures.flat()) {
      if (!apex || taken.some((at) => Math.hypot(at.x - apex.at.x, at.y - apex.at.y) < JOIN_MM)) continue;
      const { x, y } = toScreen(this.stage.view, apex.at);
      layer.path().attr('d', `M${x} ${y - TICK_PX}V${y + TICK_PX}`);
      const words = `apex ${bare(apex.at.x)}, ${length(apex.at.y)}`;
      // On the hollow side, clear of the teeth that show how sharply the line bends.
      const isRound = endAngles[0] > endAngles[1];
      const low = toScreen(this.stage.view, { x: 0, y: made.part.bounds.bottom }).y;
      // A part too thin to hold the words has them below it.
      const below = low - y < BELOW_PX + ABOVE_PX ? Math.max(low, y) + BELOW_PX : y + BELOW_PX;
      layer.plain(words).attr({ x, y: isRound ? below : y - ABOVE_PX, class: 'middle' });
    }
  }
}
