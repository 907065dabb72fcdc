import { minimizeOn } from '../../curves/numeric/roots-and-minima.ts';

/** Copies laid across a board, one above the other. */
export interface Stack {
  /** From the first copy to the last, across the board, mm. */
  readonly height: (copies: number) => number;
  /** The most copies whose height is within this. */
  readonly within: (height: number) => number;
  readonly places: (copies: number) => readonly StackPlace[];
}

export interface StackPlace {
  /** Along the board and across it, mm, never below 0. */
  readonly x: number;
  readonly y: number;
  /** Whether the copy has the other orientation. */
  readonly other: boolean;
}

type SeparationByShift = (shift: number) => number;

/** Separations by the shift along the board, mm, between copies of one orientation or the other. */
export interface StackSeparations {
  readonly same: SeparationByShift;
  readonly otherSame: SeparationByShift;
  readonly toOther: SeparationByShift;
  readonly fromOther: SeparationByShift;
}

/** A stack of one pitch (mm), nothing shifted. */
export const straightStack = (pitch: number): Stack => evenStack(pitch, 0, Number.POSITIVE_INFINITY);

function evenStack(pitch: number, drift: number, most: number): Stack {
  return {
    height: (copies) => (copies - 1) * pitch,
    within: (height) => Math.min(Math.floor(height / pitch) + 1, most),
    places: (copies) =>
      Array.from({ length: copies }, (_, i) => ({
        x: drift < 0 ? (i - copies + 1) * drift : i * drift,
        y: i * pitch,
        other: false,
      })),
  };
}

/** Shifts tried each way before the best is refined: on 1/2 in of room, steps of 0.2 mm. */
const SHIFT_SAMPLES = 60;

interface StackLimits {
  /** All copies have one orientation; otherwise every other one has the other. */
  readonly alike: boolean;
  /** How far copies may be shifted along, mm. */
  readonly slack: number;
  /** How many copies a stack has to hold. */
  readonly across: (stack: Stack) => number;
}

export const lowestStack = (lifts: StackSeparations, room: StackLimits): Stack =>
  room.alike ? shiftedStack(lifts.same, room) : alternatingStack(lifts, room);

/** The shift within the slack, either way, at which a height is least; 0 where that is as good. */
function bestShift(height: SeparationByShift, slack: number): number {
  if (slack === 0) return 0;
  const { at, value } = minimizeOn((u) => height((2 * u - 1) * slack), 2 * SHIFT_SAMPLES);
  return value < height(0) - MIN_SHIFT_GAIN_MM ? (2 * at - 1) * slack : 0;
}

/** Less gain than a tenth of a saw cut's play is not worth setting out. */
const MIN_SHIFT_GAIN_MM = 0.05;

/** Each extra row leaves less room to shift. */
const MAX_EXTRA_ROWS = 40;

/** Each copy is shifted by as much as the one before: the more copies, the less each may shift. */
function shiftedStack(lift: SeparationByShift, { slack, across }: StackLimits): Stack {
  const straight = straightStack(Math.max(0, lift(0)));
  const leaning = (copies: number): Stack => {
    if (copies < 2) return straight;
    const drift = bestShift(lift, slack / (copies - 1));
    if (drift === 0) return straight;
    // Copies farther apart than neighbors must clear each other, too.
    const pitches = Array.from({ length: copies - 1 }, (_, k) => lift((k + 1) * drift) / (k + 1));
    return evenStack(Math.max(...pitches, 0), drift, copies);
  };
  let best = leaning(across(straight));
  for (let more = 0; more < MAX_EXTRA_ROWS; more++) {
    const wanted = across(best);
    const next = leaning(wanted + 1);
    if (next === straight || across(next) <= wanted) break;
    best = next;
  }
  return best;
}

function alternatingStack(
  { same, otherSame, toOther, fromOther }: StackSeparations,
  { slack }: StackLimits,
): Stack {
  const repeat = Math.max(same(0), otherSame(0), 0);
  const known = new Map<number, StepPair['steps']>();
  const step = (shift: number): StepPair['steps'] => {
    const first = known.get(shift)?.[0] ?? Math.max(toOther(shift), 0);
    // Every other copy lies straight above the last but one.
    const second = known.get(shift)?.[1] ?? Math.max(fromOther(-shift), repeat - first, 0);
    known.set(shift, [first, second]);
    return [first, second];
  };
  const sum = (shift: number): number => step(shift)[0] + step(shift)[1];
  const [many, two] = [bestShift(sum, slack), bestShift((shift) => Math.min(...step(shift)), slack)];
  return steppedStack({ shift: many, steps: step(many) }, { shift: two, steps: step(two) });
}

/** The steps to a copy of the other orientation and back, and that copy's shift. */
interface StepPair {
  readonly shift: number;
  readonly steps: readonly [toOther: number, fromOther: number];
}

/** Two copies have a pair of steps of their own; more repeat one pair. The shorter step comes first. */
function steppedStack(many: StepPair, two: StepPair): Stack {
  const paceOf = (copies: number): StepPair => (copies === 2 ? two : many);
  const height = (copies: number): number => {
    const { steps } = paceOf(copies);
    const pairs = Math.floor((copies - 1) / 2);
    return pairs * (steps[0] + steps[1]) + (copies % 2 === 0 ? Math.min(...steps) : 0);
  };
  return {
    height,
    within: (most) => {
      const { steps } = many;
      const pairs = Math.floor(most / (steps[0] + steps[1]));
      const odd = 2 * pairs + 1;
      return Math.max(height(odd + 1) <= most ? odd + 1 : odd, height(2) <= most ? 2 : 1);
    },
    places: (copies) => {
      const { shift, steps } = paceOf(copies);
      const otherFirst = steps[1] < steps[0];
      const x = { same: Math.max(0, -shift), other: Math.max(0, shift) };
      let y = 0;
      return Array.from({ length: copies }, (_, i): StackPlace => {
        const other = (i % 2 === 1) !== otherFirst;
        if (i > 0) y += other ? steps[0] : steps[1];
        return { x: other ? x.other : x.same, y, other };
      });
    },
  };
}
