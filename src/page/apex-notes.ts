import type { Path, Text } from '@svgdotjs/svg.js';
import type { Apex, Figures } from '../curves/figures.ts';
import { JOIN_MM } from '../curves/tolerance.ts';
import type { Part } from '../part/part.ts';
import type { Bench } from './bench.ts';
import { put, write } from './dom.ts';
import type { Stage } from './stage.ts';
import { toScreen } from './view.ts';
import type { Made } from './work.ts';

const TICK_PX = 12;
/** From the apex to the baseline of its words, above it and below. */
const [ABOVE_PX, BELOW_PX] = [20, 34];

/** A tick and its words, kept from one frame to the next: to make them anew takes longer than to move them. */
interface Note {
  readonly tick: Path;
  readonly words: Text;
}

/** A pencil tick and its reading at every apex that no grip stands in: a nail off the middle is not the apex. */
export class ApexNotes {
  private readonly notes: Note[] = [];

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
  ) {
    stage.moved(() => this.draw());
    bench.changed(() => this.draw());
  }

  draw(): void {
    const { made, isTrue } = this.bench;
    this.stage.layer('apexes').node.classList.toggle('faint', !isTrue);
    const bare = made ? apexesBare(made) : [];
    for (const [i, figures] of bare.entries()) this.place(this.noteFor(i), figures, made!.part);
    for (const { tick, words } of this.notes.splice(bare.length)) {
      tick.remove();
      words.remove();
    }
  }

  private noteFor(i: number): Note {
    const layer = this.stage.layer('apexes');
    this.notes[i] ??= { tick: layer.path(), words: layer.plain('').addClass('middle') };
    return this.notes[i];
  }

  private place({ tick, words }: Note, { apex, endAngles }: WithApex, { bounds }: Part): void {
    const { view } = this.stage;
    const { bare, length } = this.bench;
    const { x, y } = toScreen(view, apex.at);
    put(tick.node, 'd', `M${x} ${y - TICK_PX}V${y + TICK_PX}`);
    write(words.node, `apex ${bare(apex.at.x)}, ${length(apex.at.y)}`);
    // On the hollow side, clear of the teeth that show how sharply the line bends.
    const isRound = endAngles[0] > endAngles[1];
    const low = toScreen(view, { x: 0, y: bounds.bottom }).y;
    // A part too thin to hold the words has them below it.
    const below = low - y < BELOW_PX + ABOVE_PX ? Math.max(low, y) + BELOW_PX : y + BELOW_PX;
    put(words.node, 'x', String(x));
    put(words.node, 'y', String(isRound ? below : y - ABOVE_PX));
  }
}

type WithApex = Figures & { readonly apex: Apex };

/** The runs whose apex no grip stands in. */
function apexesBare({ figures, grips }: Made): WithApex[] {
  const hasGrip = ({ at }: Apex): boolean =>
    grips.some((grip) => Math.hypot(grip.at.x - at.x, grip.at.y - at.y) < JOIN_MM);
  return figures.flat().filter((one): one is WithApex => one.apex !== undefined && !hasGrip(one.apex));
}
