import type { Point } from '../../curves/geometry/point.ts';
import { normalEquations, solveSymmetric } from '../fit/cholesky.ts';

/** A reading that does not fit its neighbours. */
export interface Outlier {
  readonly at: Point;
  /** How far it lies off the curve of its neighbours, mm. */
  readonly off: number;
}

export interface SortedReadings {
  readonly good: readonly Point[];
  readonly bad: readonly Outlier[];
}

/**
 * A reading this many standard deviations off its neighbours' curve is bad. Of a hundred good readings, ten
 * thousand times over, about seven are off by as much by chance.
 */
const OUTLIER_SIGMAS = 5;
/** Neighbours that judge a reading: four to each side, where there are. */
const NEIGHBORS = 8;
/** Fewer than this to judge with leave nothing over to tell who is wrong. */
const MIN_NEIGHBORS = 5;
/**
 * Neighbours that scatter by up to so many standard deviations may do so by chance (χ² of 4 degrees of freedom
 * stays below 1.54² times their number 95 times in 100); beyond it they are spoilt by one that is bad.
 */
const CHANCE_SCATTER = 1.54;
/** More bad readings than this share are no slips: the readings as a whole are then not of a fair curve. */
const MAX_OUTLIER_SHARE = 0.2;

/**
 * Sets bad readings apart, the worst first, each judged by a parabola (a cubic where eight are to hand) through
 * its neighbours without itself. A bad neighbour spoils that curve, which shows in how ill the neighbours lie
 * on it, and counts less by as much: so the bad one is found, and not those beside it.
 * @param points at rising stations
 */
export function separateOutliers(points: readonly Point[], sigma: number): SortedReadings {
  let good = points;
  const bad: Outlier[] = [];
  const most = Math.floor(points.length * MAX_OUTLIER_SHARE);
  while (bad.length < most) {
    let worst: { at: Point; off: number; times: number } | undefined;
    for (const [i, at] of good.entries()) {
      const seen = compareWithNeighbors(good, i, sigma);
      if (seen && seen.times > (worst?.times ?? OUTLIER_SIGMAS)) worst = { at, ...seen };
    }
    if (!worst) break;
    const { at, off } = worst;
    bad.push({ at, off });
    good = good.filter((each) => each !== at);
  }
  return { good, bad: bad.toSorted((a, b) => a.at.x - b.at.x) };
}

/** How far reading i lies off its neighbours' curve, in mm and in standard deviations of that distance. */
function compareWithNeighbors(
  points: readonly Point[],
  i: number,
  sigma: number,
): { off: number; times: number } | undefined {
  const from = Math.max(0, Math.min(i - NEIGHBORS / 2, points.length - 1 - NEIGHBORS));
  const near = points.slice(from, from + NEIGHBORS + 1).filter((p) => p !== points[i]);
  if (near.length < MIN_NEIGHBORS) return undefined;
  const { x, y } = points[i]!;
  const reach = Math.max(...near.map((p) => Math.abs(p.x - x)));
  const degree = near.length < NEIGHBORS ? 2 : 3;
  const powers = (at: number): number[] =>
    Array.from({ length: degree + 1 }, (_, k) => ((at - x) / reach) ** k);
  const rows = near.map((p) => powers(p.x));
  const { matrix, right } = normalEquations(
    rows,
    near.map((p) => p.y),
  );
  const curve = solveSymmetric(matrix, right);
  // The curve's value at the station itself is its first coefficient.
  const spread = solveSymmetric(matrix, powers(x))?.[0];
  if (!curve || spread === undefined) return undefined;
  const misfit = near.reduce((sum, p, k) => {
    const value = rows[k]!.reduce((total, power, j) => total + power * curve[j]!, 0);
    return sum + (p.y - value) ** 2;
  }, 0);
  const scatter = Math.max(sigma, Math.sqrt(misfit / (near.length - degree - 1)) / CHANCE_SCATTER);
  const off = y - curve[0]!;
  return { off, times: Math.abs(off) / (scatter * Math.sqrt(1 + spread)) };
}
