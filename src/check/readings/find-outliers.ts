import type { Point } from '../../curves/geometry/point.ts';
import { normalEquations, solveSymmetric } from '../../curves/numeric/linear-algebra.ts';
import { itemAt } from '../../units/checked.ts';

export interface Outlier {
  readonly at: Point;
  /** Distance from the curve through its neighbors, mm. */
  readonly off: number;
}

/** Simulated: seven of ten thousand sets of a hundred good readings have one as far off by chance. */
const OUTLIER_SIGMAS = 5;
/** Four to each side of the reading, where there are. */
const NEIGHBORS = 8;
/** With fewer neighbors than this none is left over to show which reading is wrong. */
const MIN_NEIGHBORS = 5;
/** By chance neighbors scatter by less: χ² of 4 degrees of freedom stays below 4·1.54² 95 times in 100. */
const CHANCE_SCATTER = 1.54;
/** With more outliers than this share the readings as a whole are not of a fair curve. */
const MAX_OUTLIER_SHARE = 0.2;

/**
 * Separates the outliers of points at rising stations. A parabola (with eight neighbors a cubic) through its neighbors
 * judges each reading. A bad neighbor spoils that curve, but then the neighbors scatter around it and the judgment counts
 * less: so the bad reading is found, and not those beside it.
 */
export function separateOutliers(points: readonly Point[], sigma: number) {
  let good = points;
  const bad: Outlier[] = [];
  const most = Math.floor(points.length * MAX_OUTLIER_SHARE);
  while (bad.length < most) {
    let worst: ReturnType<typeof compareWithNeighbors>;
    for (const [i, at] of good.entries()) {
      const seen = compareWithNeighbors(good, at, i, sigma);
      if (seen && seen.times > (worst?.times ?? OUTLIER_SIGMAS)) worst = seen;
    }
    if (!worst) break;
    const { at, off } = worst;
    bad.push({ at, off });
    good = good.filter((each) => each !== at);
  }
  return { good, bad: bad.toSorted((a, b) => a.at.x - b.at.x) };
}

/** A reading's distance from its neighbors' curve, in mm and (`times`) in standard deviations. */
function compareWithNeighbors(
  points: readonly Point[],
  at: Point,
  i: number,
  sigma: number,
): (Outlier & { readonly times: number }) | undefined {
  const from = Math.max(0, Math.min(i - NEIGHBORS / 2, points.length - 1 - NEIGHBORS));
  const near = points.slice(from, from + NEIGHBORS + 1).filter((p) => p !== at);
  if (near.length < MIN_NEIGHBORS) return undefined;
  const { x, y } = at;
  const reach = Math.max(...near.map((p) => Math.abs(p.x - x)));
  const degree = near.length < NEIGHBORS ? 2 : 3;
  const powers = (station: number): number[] =>
    Array.from({ length: degree + 1 }, (_, k) => ((station - x) / reach) ** k);
  const { matrix, right } = normalEquations(
    near.map((p) => powers(p.x)),
    near.map((p) => p.y),
  );
  const curve = solveSymmetric(matrix, right) ?? [];
  // The powers count from the station, so the curve's value there is its first coefficient.
  const [value] = curve;
  const [spread] = solveSymmetric(matrix, powers(x)) ?? [];
  if (value === undefined || spread === undefined) return undefined;
  const misfit = near.reduce((sum, p) => {
    const fitted = powers(p.x).reduce((total, power, j) => total + power * itemAt(curve, j), 0);
    return sum + (p.y - fitted) ** 2;
  }, 0);
  const scatter = Math.max(sigma, Math.sqrt(misfit / (near.length - degree - 1)) / CHANCE_SCATTER);
  const off = y - value;
  return { at, off, times: Math.abs(off) / (scatter * Math.sqrt(1 + spread)) };
}
