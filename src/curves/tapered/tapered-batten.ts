import { itemAt } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { type Curve, makeCurve } from '../curve.ts';
import { FREE_ENDS, type StripEnds } from '../elastica/solve-strip.ts';
import { freeRiseLimit } from '../elastica/three-pin-closed-form.ts';
import type { TaperedSegment } from '../geometry/pieces/piece.ts';
import type { Point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { assertBetween, assertDistinct } from '../validate.ts';
import { noApexFault, solveTaperedApex } from './tapered-apex-inverse.ts';
import type { TaperedEquilibrium } from './tapered-equilibrium.ts';
import { END, START, solveNearbyTapered, solveTapered } from './tapered-equilibrium.ts';
import { UnitFrame } from './unit-frame.ts';

/** Thickness of a strip at its two ends, mm, linear between them. */
export interface Taper {
  readonly from: number;
  readonly to: number;
}

export type TaperedBy = { readonly nail: Point } | { readonly apex: Point };

/** A strip with more taper breaks at its feather edge before it bends: its thin end is 1/125 as stiff as its thick one. */
const MAX_TAPER = 5;

/**
 * A strip planed to a taper, over a pin at each end and one nail between, to 1e-11 of the chord: the least of ½∫t³κ²
 * ds with its length and the nail's place along it free. It would creep thick end first, so friction or a stop must
 * hold it endwise. One held lengthwise at its first end agrees when shallow; tapered to half, over a nail in the
 * middle, its apex is 0.15% of the rise higher at a rise of 0.2 of the chord, 0.5% at 0.3, but the line as a whole is
 * 0.81% and 2.2% off square to itself, 0.92% and 3% by its offsets.
 * @throws Fault `curve.same-point`, `curve.not-finite`, `batten.taper`, `batten.taper-held`, `batten.out-of-order`,
 *   `batten.too-high`, `batten.no-such-apex`
 */
export function taperedBatten(from: Point, to: Point, by: TaperedBy, strip: Taper, ends = FREE_ENDS): Curve {
  const bent = 'nail' in by ? by.nail : by.apex;
  assertDistinct(from, to, 'the two ends of the batten');
  assertBetween(from, bent, to);
  assertTaper(strip, ends);
  const frame = new UnitFrame(from, to, bent);
  const asked = frame.toLocal(bent);
  const ratio = strip.to / strip.from;
  const straight = asked.y * frame.length < JOIN_MM;
  if (straight && 'apex' in by)
    throw noApexFault(asked, frame, () => 'Move it off the chord, or use a line.');
  const spans = straight
    ? straightSpans(asked, ratio)
    : ('nail' in by ? equilibriumOnNail(asked, ratio, frame) : solveTaperedApex(asked, ratio, frame)).spans;
  const exact = spans.map((span) => frame.spanToWorld(span, strip.from));
  return makeCurve({ kind: 'batten', from, to, pins: [from, itemAt(exact, 1).from, to], exact });
}

function assertTaper({ from, to }: Taper, ends: StripEnds): void {
  if (ends.start !== 'free' || ends.end !== 'free')
    throw new Fault(
      'batten.taper-held',
      'a tapered batten must have free ends. Set both ends free, or use one thickness.',
    );
  if (!(from > 0 && to > 0 && Number.isFinite(from + to)))
    throw new Fault(
      'batten.taper',
      'a batten needs a thickness at both ends. Use two lengths larger than 0.',
    );
  if (Math.max(from / to, to / from) > MAX_TAPER)
    throw new Fault(
      'batten.taper',
      (mm) =>
        `a batten from ${mm(from)} to ${mm(to)} thick tapers too much. ` +
        `Make the thin end ${mm(Math.max(from, to) / MAX_TAPER)} or thicker.`,
    );
}

function straightSpans(nail: Point, ratio: number): TaperedSegment[] {
  const flat = { type: 'tapered', angle: 0, moment: 0, force: START } as const;
  const middle = 1 + (ratio - 1) * nail.x;
  return [
    { ...flat, from: START, thickness: [1, middle], length: nail.x },
    { ...flat, from: nail, thickness: [middle, ratio], length: 1 - nail.x },
  ];
}

function equilibriumOnNail(nail: Point, ratio: number, frame: UnitFrame): TaperedEquilibrium {
  if (!(nail.x > 0 && nail.x < 1))
    throw new Fault(
      'batten.out-of-order',
      (mm) =>
        `the nail at station ${mm(frame.toWorld(nail).x)} is not between the ends of the batten. ` +
        `Put it between ${mm(frame.toWorld(START).x)} and ${mm(frame.toWorld(END).x)}.`,
    );
  const rest = nail.y < freeRiseLimit(nail.x) ? solveTapered(nail, ratio) : undefined;
  if (rest) return rest;
  const limit = maxNailHeight(nail.x, ratio);
  throw new Fault(
    'batten.too-high',
    (mm) =>
      `this nail is too high: ${mm(nail.y * frame.length)} off the chord at station ${mm(frame.toWorld(nail).x)}. ` +
      `This tapered batten slips off above ${mm(limit * frame.length)} there. Lower the nail, or use less taper.`,
  );
}

/** The climb to the highest nail starts at this share of a uniform strip's limit, and continues by it. */
const CLIMB = 1 / 8;
/** Accuracy of the highest nail as a share of that limit: a figure to stay well below. */
const CLIMB_TOLERANCE = 1e-3;

/** The greatest height of a nail at a station, per chord; never above the uniform strip's limit. */
function maxNailHeight(x: number, ratio: number): number {
  const top = freeRiseLimit(x);
  let share = CLIMB;
  let rest = solveTapered({ x, y: share * top }, ratio);
  for (let stride = CLIMB; rest && stride > CLIMB_TOLERANCE; ) {
    const higher: number = share + stride;
    const next: TaperedEquilibrium | undefined =
      higher < 1 ? solveNearbyTapered(rest, { x, y: higher * top }, ratio) : undefined;
    if (next) [rest, share] = [next, higher];
    else stride /= 2;
  }
  return rest ? share * top : 0;
}
