import type { Curve } from '../../curves/curve.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { apexOf } from '../../curves/measurements.ts';
import { spline } from '../../curves/simple/spline.ts';
import { undefinedOnFault } from '../../curves/try-curve.ts';
import type { EndConditions } from '../../job/steps/end-conditions.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
import type { CurveFamily, Steps, TakenKind } from './curve-families.ts';
import { flatsOf, heldFamilies, MANY_READINGS, plainFamilies } from './curve-families.ts';
import { fitModel, PIN_COST } from './fit-model.ts';
import { type Misfit, maxAbs, misfitOf, signedDistanceFrom } from './rigid-fit.ts';

export interface KindFit extends Misfit {
  readonly kind: TakenKind;
  /** The steps of the edge: the curve, and straight parts beside it. */
  readonly curves: Steps;
  readonly ends?: EndConditions;
  /** Of the kind and of the readings that it calls wrong, see fit-model.ts: the least wins. */
  readonly cost: number;
  /** Readings that are wrong if the part is of this kind; worst and rms are those of the others. */
  readonly wrong: readonly WrongReading[];
}

export interface WrongReading {
  readonly at: Point;
  /** Distance from the curve, mm, positive to its left. */
  readonly off: number;
}

/** Pins between a spline's ends. A job with more pins than this is no longer easy to edit. */
const MAX_PINS = 12;

/** By least squares of normal distances from the fair curve's values on, best first; but no rise within the errors. */
export function fitCurveKinds(
  readings: readonly Point[],
  fair: readonly Point[],
  sigma: number,
  through: readonly Point[],
): KindFit[] {
  const tryFamilies = (families: readonly CurveFamily[]): KindFit[] =>
    families
      .flatMap((each) => fitFamily(each, readings, sigma))
      .filter(({ kind, curves: [first] }) => kind === 'line' || rises(first, sigma));
  const plain = tryFamilies(plainFamilies(fair));
  const explained = plain.filter(({ rms }) => rms <= sigma).map(({ wrong }) => wrong.length);
  // Among few readings a held end costs as much as a wrong one, and a straight part more: a plain curve that leaves
  // one reading out wins.
  const needed = Math.min(...explained) > (readings.length < MANY_READINGS ? 1 : 0);
  const flats = explained.includes(1) ? {} : flatsOf(through, sigma);
  const held = needed ? tryFamilies(heldFamilies(fair, flats)) : [];
  const [bestHeld] = held.toSorted(byCost);
  const splines = fitSplineWithFewestPins(readings, fair, sigma);
  return [...plain, ...(bestHeld ? [bestHeld] : []), ...splines].toSorted(byCost);
}

const byCost = (a: KindFit, b: KindFit): number => a.cost - b.cost;

const rises = ({ kind, exact, from, to }: Curve, sigma: number): boolean =>
  kind === 'line' || (apexOf(exact, from, to)?.rise ?? 0) > sigma;

function fitFamily(family: CurveFamily, readings: readonly Point[], sigma: number): KindFit[] {
  const { kind, ends, make, start } = family;
  const cost = start.length * Math.log(readings.length) + family.cost;
  const residuals = (at: readonly number[], points: readonly Point[]): number[] | undefined => {
    const curves = undefinedOnFault(() => make(at));
    return curves && distancesFrom(curves, points);
  };
  const fit = fitModel({ start, cost, residuals }, readings, sigma);
  if (!fit) return [];
  const curves = make(fit.parameters);
  const off = distancesFrom(curves, fit.wrong);
  const wrong = fit.wrong.map((at, i) => ({ at, off: itemAt(off, i) }));
  return [{ kind, curves, ...(ends && { ends }), ...misfitOf(fit.residuals), cost: fit.cost, wrong }];
}

function distancesFrom(curves: Steps, points: readonly Point[]): number[] {
  const distanceOf = signedDistanceFrom(curves.flatMap(({ exact }) => exact));
  return points.map((p) => distanceOf(p).distance);
}

/** Adds pins one by one until only the readings' own errors are left, or no pin helps. */
function fitSplineWithFewestPins(
  readings: readonly Point[],
  fair: readonly Point[],
  sigma: number,
): KindFit[] {
  const reach = 2 * maxAbs(readings.map(({ y }) => y - firstOf(readings).y));
  // Where no reading holds a pin, it may go anywhere.
  const runsAway = ({ pins }: Curve): boolean =>
    pins.some(({ y }) => Math.abs(y - firstOf(readings).y) > reach);
  let best: KindFit | undefined;
  for (let pins = 1; pins <= Math.min(MAX_PINS, readings.length - 3); pins++) {
    const start = evenlySpacedPoints(fair, pins);
    const make = (heights: readonly number[]): Steps => {
      const points = start.map(({ x }, i) => point(x, itemAt(heights, i)));
      return [spline(points, 'natural', 'natural')];
    };
    const offsets = start.map(({ y }) => y);
    const cost = pins * (PIN_COST - Math.log(readings.length));
    const [next] = fitFamily({ kind: 'spline', make, start: offsets, cost }, readings, sigma);
    if (next && next.cost < (best?.cost ?? Number.POSITIVE_INFINITY) && !runsAway(next.curves[0]))
      best = next;
    // More pins cost more than they can save.
    if (best && best.cost <= 2 * Math.log(readings.length) + (pins + 1) * PIN_COST) break;
  }
  return best ? [best] : [];
}

function evenlySpacedPoints(fair: readonly Point[], pins: number): Point[] {
  const [from, to] = [firstOf(fair), lastOf(fair)];
  return Array.from({ length: pins + 2 }, (_, i) => {
    const x = from.x + ((to.x - from.x) * i) / (pins + 1);
    const after = fair.findIndex((p) => p.x >= x);
    const [a, b] = after > 0 ? [itemAt(fair, after - 1), itemAt(fair, after)] : [from, itemAt(fair, 1)];
    return point(i > pins ? to.x : x, a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x));
  });
}
