import type { ShowLength } from '../../units/fault.ts';
import type { Curve } from '../curve.ts';
import { coarseness, DOUBT_ODDS, type LeftOutPin, leaveOutPins } from './left-out-pins.ts';
import type { Remark } from './remark.ts';

/** 1/50 in, mm, the least called a bump. Rounding to 1/64 in puts a pin off its own line by 0.2 mm. */
const MIN_OFF_MM = 0.5;
/** A pin this unlikely on the line of the others is odd. Tuned on tests/stress/verdicts/fairness-cases.ts. */
const ODD_ODDS = 5e-4;
/** A bump that an eye along the line sees and a maker mends, mm: 1/32 in. Common practice, no published source. */
const SEEN_BUMP_MM = 25.4 / 32;

export interface PinVerdict {
  readonly remarks: readonly Remark[];
  /** What the pins leave in doubt, where none of them is odd. */
  readonly doubts: readonly Remark[];
  /** The pin at which the largest bump would not show. */
  readonly blindest?: LeftOutPin;
}

/** One pin that is off the line of the others, or all of them set out too coarsely; or a bump that may be hidden. */
export function judgePins(run: Curve): PinVerdict {
  const pins = leaveOutPins(run.pins);
  const [blindest] = pins.toSorted((a, b) => b.leastBump - a.leastBump);
  if (!blindest) return { remarks: [], doubts: [] };
  const odd = mostUnlikely(pins, MIN_OFF_MM, ODD_ODDS);
  const remarks = odd ? [oddRemark(odd, run)] : coarseRemark(run);
  return { remarks, doubts: doubtfulRemark(pins, blindest, run), blindest };
}

const pinName = ({ kind }: Curve): string => (kind === 'batten' ? 'nail' : 'point');

const mostUnlikely = (pins: readonly LeftOutPin[], leastOff: number, odds: number): LeftOutPin | undefined =>
  pins
    .filter(({ off, wrongSide }) => Math.abs(off) >= leastOff && wrongSide < odds)
    .toSorted((a, b) => a.wrongSide - b.wrongSide)[0];

function oddRemark({ at, off }: LeftOutPin, run: Curve): Remark {
  const message = (mm: ShowLength): string =>
    `the ${pinName(run)} at ${mm(at.x)} is ${mm(Math.abs(off))} off the curve of the others. Check its offset`;
  return { code: 'fairness.odd-point', at, message };
}

function coarseRemark(run: Curve): Remark[] {
  const off = coarseness(run.pins);
  if (off === 0) return [];
  const message = (mm: ShowLength): string =>
    `the ${pinName(run)}s are up to ${mm(off)} off a smooth curve, on both sides. Set them to a finer mark, or use fewer`;
  return [{ code: 'fairness.lumpy', message }];
}

/** Where pins are too few, or a line too uneven, to show a bump that would be seen. */
function doubtfulRemark(pins: readonly LeftOutPin[], blindest: LeftOutPin, run: Curve): Remark[] {
  if (blindest.leastBump <= SEEN_BUMP_MM) return [];
  const [name, suspect] = [pinName(run), mostUnlikely(pins, SEEN_BUMP_MM, DOUBT_ODDS)];
  const { at } = suspect ?? blindest;
  if (suspect) {
    const message = (mm: ShowLength): string =>
      `doubtful: the ${name} at ${mm(at.x)} may be ${mm(Math.abs(suspect.off))} off. Check its offset`;
    return [{ code: 'fairness.doubtful', at, message }];
  }
  const message = (mm: ShowLength): string =>
    `fair as far as ${pins.length} ${name}s show: a ${name} ${mm(blindest.leastBump)} off at ${mm(at.x)} would not be seen`;
  return [{ code: 'fairness.fair-so-far', at, message }];
}
