import type { Curve } from '../../curves/curve.ts';
import { batten } from '../../curves/elastica/batten.ts';
import { bow } from '../../curves/elastica/bow.ts';
import { cross, type Point, point, subtract } from '../../curves/geometry/point.ts';
import { arc } from '../../curves/simple/arc.ts';
import { line } from '../../curves/simple/line.ts';
import { spline } from '../../curves/simple/spline.ts';
import { undefinedOnFault } from '../../curves/try-curve.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
import { levenbergMarquardt } from './levenberg-marquardt.ts';
import { type Misfit, misfitOf, signedDistanceFrom, sumOfSquares } from './rigid-fit.ts';

export interface KindFit extends Misfit {
  readonly kind: 'line' | 'arc' | 'batten' | 'bow' | 'spline';
  readonly curve: Curve;
  /** Schwarz's criterion, misfit + parameters·ln(readings): the least cost wins. */
  readonly cost: number;
}

/** Pins between a spline's ends. A job with more pins than this is no longer easy to edit. */
const MAX_PINS = 12;

/**
 * Fits curves to five or more readings at rising stations by least squares of the normal distances, best first, from the
 * values of the fair curve there. A kind that does not exist for the bend is left out.
 * Source of the criterion: Schwarz, "Estimating the dimension of a model", Annals of Statistics 6, 1978.
 */
export function fitCurveKinds(readings: readonly Point[], fair: readonly Point[], sigma: number): KindFit[] {
  const [from, to] = [firstOf(fair), lastOf(fair)];
  const top = farthestFromChord(fair);
  const rise = cross(subtract(to, from), subtract(top, from)) / (to.x - from.x);
  const left = (y: number): Point => point(from.x, y);
  const right = (y: number): Point => point(to.x, y);
  const tryKind = (kind: KindFit['kind'], make: CurveFamily, start: readonly number[]): KindFit[] =>
    fitCurveKind(kind, make, start, readings, sigma);
  const ends = [from.y, to.y];
  const overNail: CurveFamily = ([a = 0, b = 0, x = 0, y = 0]) =>
    batten(left(a), right(b), { nail: point(x, y) });
  // Each family gets as many parameters as its start has.
  return [
    ...tryKind('line', ([a = 0, b = 0]) => line(left(a), right(b)), ends),
    ...tryKind('arc', ([a = 0, b = 0, r = 0]) => arc(left(a), right(b), { rise: r }), [...ends, rise]),
    ...tryKind('bow', ([a = 0, b = 0, r = 0]) => bow(left(a), right(b), r), [...ends, rise]),
    ...tryKind('batten', overNail, [...ends, top.x, top.y]),
    ...fitSplineWithFewestPins(readings, fair, sigma),
  ].toSorted((a, b) => a.cost - b.cost);
}

type CurveFamily = (unknowns: readonly number[]) => Curve;

function farthestFromChord(fair: readonly Point[]): Point {
  const [from, to] = [firstOf(fair), lastOf(fair)];
  const height = (p: Point): number => Math.abs(cross(subtract(to, from), subtract(p, from)));
  return fair.slice(1, -1).reduce((best, p) => (height(p) > height(best) ? p : best));
}

function fitCurveKind(
  kind: KindFit['kind'],
  make: CurveFamily,
  start: readonly number[],
  readings: readonly Point[],
  sigma: number,
): KindFit[] {
  const found = levenbergMarquardt((at) => {
    const curve = undefinedOnFault(() => make(at));
    const distanceOf = curve && signedDistanceFrom(curve.exact);
    return distanceOf && readings.map((p) => distanceOf(p).distance);
  }, start);
  if (!found) return [];
  const { parameters, residuals } = found;
  const cost = sumOfSquares(residuals) / sigma ** 2 + parameters.length * Math.log(readings.length);
  return [{ kind, curve: make(parameters), ...misfitOf(residuals), cost }];
}

/** Adds pins one by one until only the readings' own errors are left, or no pin helps. */
function fitSplineWithFewestPins(
  readings: readonly Point[],
  fair: readonly Point[],
  sigma: number,
): KindFit[] {
  let best: KindFit | undefined;
  for (let pins = 1; pins <= Math.min(MAX_PINS, readings.length - 3); pins++) {
    const start = evenlySpacedPoints(fair, pins);
    const through = (offsets: readonly number[]): Point[] =>
      start.map(({ x }, i) => point(x, itemAt(offsets, i)));
    const make: CurveFamily = (offsets) => spline(through(offsets), 'natural', 'natural');
    const offsets = start.map(({ y }) => y);
    const [next] = fitCurveKind('spline', make, offsets, readings, sigma);
    if (next && !(next.cost >= (best?.cost ?? Number.POSITIVE_INFINITY))) best = next;
    const free = readings.length - pins - 2;
    if (next && readings.length * (next.rms / sigma) ** 2 <= free) break;
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
