import type { Curve } from '../../curves/curve.ts';
import { batten } from '../../curves/elastica/batten.ts';
import { bow } from '../../curves/elastica/bow.ts';
import { cross, type Point, point, subtract } from '../../curves/geometry/point.ts';
import { arc } from '../../curves/simple/arc.ts';
import { line } from '../../curves/simple/line.ts';
import { spline } from '../../curves/simple/spline.ts';
import { undefinedOnFault } from '../../curves/try-curve.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
import { levenbergMarquardt, sumOfSquares } from './levenberg-marquardt.ts';
import { maxAbs, rootMeanSquare } from './rigid-fit.ts';
import { ExtendedPath } from './signed-distance.ts';

export type FittedKind = 'line' | 'arc' | 'batten' | 'bow' | 'spline';

export interface KindFit {
  readonly kind: FittedKind;
  readonly curve: Curve;
  readonly worst: number;
  readonly rms: number;
  /** Schwarz's criterion, misfit + parameters·ln(readings): the least cost wins. */
  readonly cost: number;
}

/** Pins between a spline's ends. A job with more pins than this is no longer easy to edit. */
const MAX_PINS = 12;

/**
 * Fits a line, an arc, a bow, a batten over one nail and a spline with few pins by least squares of the normal
 * distances, best first. A kind that does not exist for the bend is left out.
 * Source of the criterion: Schwarz, "Estimating the dimension of a model", Annals of Statistics 6, 1978.
 * @param readings five or more, at rising stations
 * @param fair the fair curve's values at those stations, where the fits start
 */
export function fitCurveKinds(readings: readonly Point[], fair: readonly Point[], sigma: number): KindFit[] {
  const [from, to] = [firstOf(fair), lastOf(fair)];
  const top = farthestFromChord(fair);
  const rise = cross(subtract(to, from), subtract(top, from)) / (to.x - from.x);
  const left = (y: number): Point => point(from.x, y);
  const right = (y: number): Point => point(to.x, y);
  const tryKind = (kind: FittedKind, make: CurveFamily, start: readonly number[]): KindFit[] =>
    fitCurveKind(kind, make, start, readings, sigma);
  const ends = [from.y, to.y];
  // Each family gets as many parameters as its start has.
  return [
    ...tryKind('line', ([a = 0, b = 0]) => line(left(a), right(b)), ends),
    ...tryKind('arc', ([a = 0, b = 0, r = 0]) => arc(left(a), right(b), { rise: r }), [...ends, rise]),
    ...tryKind('bow', ([a = 0, b = 0, r = 0]) => bow(left(a), right(b), r), [...ends, rise]),
    ...tryKind('batten', ([a = 0, b = 0, x = 0, y = 0]) => batten(left(a), right(b), { nail: point(x, y) }), [
      ...ends,
      top.x,
      top.y,
    ]),
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
  kind: FittedKind,
  make: CurveFamily,
  start: readonly number[],
  readings: readonly Point[],
  sigma: number,
): KindFit[] {
  const found = levenbergMarquardt((at) => {
    const curve = undefinedOnFault(() => make(at));
    const laid = curve && new ExtendedPath(curve.exact);
    return laid && readings.map((p) => laid.signedDistance(p).distance);
  }, start);
  if (!found) return [];
  const { parameters, residuals } = found;
  const cost = sumOfSquares(residuals) / sigma ** 2 + parameters.length * Math.log(readings.length);
  return [{ kind, curve: make(parameters), worst: maxAbs(residuals), rms: rootMeanSquare(residuals), cost }];
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
    const make: CurveFamily = (offsets) => {
      const points = start.map(({ x }, i) => point(x, itemAt(offsets, i)));
      return spline(points, 'natural', 'natural');
    };
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
