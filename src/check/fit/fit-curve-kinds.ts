import type { Curve } from '../../curves/curve.ts';
import { batten } from '../../curves/elastica/batten.ts';
import { bow } from '../../curves/elastica/bow.ts';
import { cross, type Point, point, subtract } from '../../curves/geometry/point.ts';
import { apexOf } from '../../curves/measurements.ts';
import { arc } from '../../curves/simple/arc.ts';
import { ellipse } from '../../curves/simple/ellipse.ts';
import { line } from '../../curves/simple/line.ts';
import { spline } from '../../curves/simple/spline.ts';
import { undefinedOnFault } from '../../curves/try-curve.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
import { fitModel, type Model, WRONG_READING_COST } from './fit-model.ts';
import { type Misfit, maxAbs, misfitOf, signedDistanceFrom } from './rigid-fit.ts';

export interface KindFit extends Misfit {
  readonly kind: 'line' | 'arc' | 'batten' | 'bow' | 'ellipse' | 'spline';
  readonly curve: Curve;
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
/** What each of these pins costs, as they bend to any readings: half of what a wrong reading does. */
const PIN_COST = WRONG_READING_COST / 2;

/** By least squares of normal distances from the fair curve's values on, best first; but no rise within the errors. */
export function fitCurveKinds(readings: readonly Point[], fair: readonly Point[], sigma: number): KindFit[] {
  const [from, to] = [firstOf(fair), lastOf(fair)];
  const top = farthestFromChord(fair);
  const rise = cross(subtract(to, from), subtract(top, from)) / (to.x - from.x);
  const left = (y: number): Point => point(from.x, y);
  const right = (y: number): Point => point(to.x, y);
  const ends = [from.y, to.y];
  const risen = [...ends, rise];
  const overNail: CurveFamily = ([a = 0, b = 0, x = 0, y = 0]) =>
    batten(left(a), right(b), { nail: point(x, y) });
  const tryKind = (kind: KindFit['kind'], make: CurveFamily, start: readonly number[]): KindFit[] =>
    fitCurveKind({ kind, make, start, cost: start.length * Math.log(readings.length) }, readings, sigma);
  // Each family gets as many parameters as its start has.
  return [
    ...tryKind('line', ([a = 0, b = 0]) => line(left(a), right(b)), ends),
    ...tryKind('arc', ([a = 0, b = 0, r = 0]) => arc(left(a), right(b), { rise: r }), risen),
    ...tryKind('bow', ([a = 0, b = 0, r = 0]) => bow(left(a), right(b), r), risen),
    ...tryKind('ellipse', ([a = 0, b = 0, r = 0]) => ellipse(left(a), right(b), r), risen),
    ...tryKind('batten', overNail, [...ends, top.x, top.y]),
    ...fitSplineWithFewestPins(readings, fair, sigma),
  ]
    .filter(
      ({ kind, curve: { exact, from: a, to: b } }) =>
        kind === 'line' || (apexOf(exact, a, b)?.rise ?? 0) > sigma,
    )
    .toSorted((a, b) => a.cost - b.cost);
}

type CurveFamily = (unknowns: readonly number[]) => Curve;

function farthestFromChord(fair: readonly Point[]): Point {
  const [from, to] = [firstOf(fair), lastOf(fair)];
  const height = (p: Point): number => Math.abs(cross(subtract(to, from), subtract(p, from)));
  return fair.slice(1, -1).reduce((best, p) => (height(p) > height(best) ? p : best));
}

interface CurveModel extends Omit<Model, 'residuals'> {
  readonly kind: KindFit['kind'];
  readonly make: CurveFamily;
}

function fitCurveKind(model: CurveModel, readings: readonly Point[], sigma: number): KindFit[] {
  const { kind, make, ...rest } = model;
  const residuals = (at: readonly number[], points: readonly Point[]): number[] | undefined => {
    const curve = undefinedOnFault(() => make(at));
    return curve && distancesFrom(curve, points);
  };
  const fit = fitModel({ ...rest, residuals }, readings, sigma);
  if (!fit) return [];
  const curve = make(fit.parameters);
  const off = distancesFrom(curve, fit.wrong);
  const wrong = fit.wrong.map((at, i) => ({ at, off: itemAt(off, i) }));
  return [{ kind, curve, ...misfitOf(fit.residuals), cost: fit.cost, wrong }];
}

function distancesFrom(curve: Curve, points: readonly Point[]): number[] {
  const distanceOf = signedDistanceFrom(curve.exact);
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
    const make: CurveFamily = (offsets) =>
      spline(
        start.map(({ x }, i) => point(x, itemAt(offsets, i))),
        'natural',
        'natural',
      );
    const offsets = start.map(({ y }) => y);
    const cost = 2 * Math.log(readings.length) + pins * PIN_COST;
    const [next] = fitCurveKind({ kind: 'spline', make, start: offsets, cost }, readings, sigma);
    if (next && next.cost < (best?.cost ?? Number.POSITIVE_INFINITY) && !runsAway(next.curve)) best = next;
    // More pins cost more than they can save.
    if (best && best.cost <= cost + PIN_COST) break;
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
