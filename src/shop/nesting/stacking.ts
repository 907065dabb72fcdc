import { minimizeOn } from '../../curves/numeric/roots-and-minima.ts';
import type { CopyOrientation, CopyPosition } from './copy-placement.ts';
import type { Separation } from './min-separation.ts';

export interface Stack {
  /** From the first copy to the last, mm. */
  readonly height: (copies: number) => number;
  /** The most copies whose height is within this. */
  readonly within: (height: number) => number;
  readonly places: (copies: number) => readonly CopyPosition[];
}

/** A stack of one pitch (mm), nothing shifted. */
export const straightStack = (pitch: number): Stack => evenStack(pitch, 0, Number.POSITIVE_INFINITY);

function evenStack(pitch: number, drift: number, most: number): Stack {
  return {
    height: (copies) => (copies - 1) * pitch,
    within: (height) => Math.min(Math.floor(height / pitch) + 1, most),
    places: (copies) =>
      Array.from({ length: copies }, (_, i) => {
        const x = drift < 0 ? (i - copies + 1) * drift : i * drift;
        return { x, y: i * pitch, orientation: 'same' };
      }),
  };
}

/** Shifts tried each way before the best is refined: on 1/2 in of room, steps of 0.2 mm. */
const SHIFT_SAMPLES = 60;

interface StackLimits {
  /** How far copies may be shifted along, mm; `across` counts the copies that a stack has to hold. */
  readonly slack: number;
  readonly across: (stack: Stack) => number;
}

export const lowestStack = (other: CopyOrientation, separation: Separation, limits: StackLimits): Stack =>
  other === 'same'
    ? shiftedStack((shift) => separation('same', 'same', shift), limits)
    : alternatingStack(other, separation, limits);

/** The shift within the slack, either way, at which a height is least; 0 where that is as good. */
function bestShift(height: (shift: number) => number, slack: number): number {
  if (slack === 0) return 0;
  const { at, value } = minimizeOn((u) => height((2 * u - 1) * slack), 2 * SHIFT_SAMPLES);
  return value < height(0) - MIN_SHIFT_GAIN_MM ? (2 * at - 1) * slack : 0;
}

/** A smaller gain is not worth setting out: a tenth of a saw cut's play. */
const MIN_SHIFT_GAIN_MM = 0.05;

/** Each extra row leaves less room to shift. */
const MAX_EXTRA_ROWS = 40;

/** Each copy is shifted by as much as the one before: the more copies, the less each may shift. */
function shiftedStack(separation: (shift: number) => number, { slack, across }: StackLimits): Stack {
  const straight = straightStack(Math.max(0, separation(0)));
  const leaning = (copies: number): Stack => {
    if (copies < 2) return straight;
    const drift = bestShift(separation, slack / (copies - 1));
    if (drift === 0) return straight;
    // Copies farther apart than neighbors must clear each other, too.
    const pitches = Array.from({ length: copies - 1 }, (_, k) => separation((k + 1) * drift) / (k + 1));
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

function alternatingStack(other: CopyOrientation, separation: Separation, { slack }: StackLimits): Stack {
  const repeat = Math.max(separation('same', 'same', 0), separation(other, other, 0), 0);
  const known = new Map<number, StepPair['steps']>();
  const step = (shift: number): StepPair['steps'] => {
    const found = known.get(shift);
    if (found) return found;
    const toOther = Math.max(separation('same', other, shift), 0);
    // Every other copy lies straight above the last but one.
    const fromOther = Math.max(separation(other, 'same', -shift), repeat - toOther, 0);
    known.set(shift, [toOther, fromOther]);
    return [toOther, fromOther];
  };
  const sum = (shift: number): number => step(shift)[0] + step(shift)[1];
  const [many, two] = [bestShift(sum, slack), bestShift((shift) => Math.min(...step(shift)), slack)];
  return steppedStack(other, { shift: many, steps: step(many) }, { shift: two, steps: step(two) });
}

interface StepPair {
  readonly shift: number;
  readonly steps: readonly [toOther: number, fromOther: number];
}

/** Two copies have a pair of steps of their own; more repeat one pair. The shorter step comes first. */
function steppedStack(other: CopyOrientation, many: StepPair, two: StepPair): Stack {
  const stepsFor = (copies: number): StepPair => (copies === 2 ? two : many);
  const height = (copies: number): number => {
    const { steps } = stepsFor(copies);
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
      const { shift, steps } = stepsFor(copies);
      const otherFirst = steps[1] < steps[0];
      const x = { same: Math.max(0, -shift), other: Math.max(0, shift) };
      let y = 0;
      return Array.from({ length: copies }, (_, i): CopyPosition => {
        const isOther = (i % 2 === 1) !== otherFirst;
        if (i > 0) y += isOther ? steps[0] : steps[1];
        return { x: isOther ? x.other : x.same, y, orientation: isOther ? other : 'same' };
      });
    },
  };
}
