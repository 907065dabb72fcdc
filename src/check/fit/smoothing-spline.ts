import type { Point } from '../../curves/geometry/point.ts';
import { firstOf, itemAt, lastOf, neighbors } from '../../units/checked.ts';

/** At rising stations; each `sigma` is a standard error, mm. */
export interface WeightedPoints {
  readonly points: readonly Point[];
  readonly sigmas: readonly number[];
}

export interface SmoothedCurve {
  readonly points: readonly Point[];
  /** Σ((value − point)/sigma)² */
  readonly misfit: number;
  readonly degreesOfFreedom: number;
}

/**
 * The curve of least Σ((y − g)/sigma)² + weight·∫g″² (Reinsch, "Smoothing by spline functions", Numerische Mathematik
 * 10, 1967): (R + weight·QᵀΣ²Q)γ = Qᵀy gives the second derivatives γ, then g = y − weight·Σ²Qγ. The freedom
 * comes from the middle bands of the inverse (Hutchinson & de Hoog, "Smoothing noisy data with spline functions", ibid. 47,
 * 1985).
 */
export function smoothingSpline({ points, sigmas }: WeightedPoints, weight: number): SmoothedCurve {
  const system = new ReinschSystem(points, sigmas, weight);
  const qGamma = system.multiplyQ(system.solve());
  const inverse = system.inverse();
  let [misfit, degreesOfFreedom] = [0, 0];
  const values = points.map(({ x, y }, i) => {
    const sigma = itemAt(sigmas, i);
    const off = weight * sigma ** 2 * itemAt(qGamma, i);
    const free = weight * sigma ** 2 * system.leverage(inverse, i);
    misfit += (off / sigma) ** 2;
    degreesOfFreedom += free;
    return { x, y: y - off };
  });
  return { points: values, misfit, degreesOfFreedom };
}

type Band = readonly [number, number, number];

/** Entries before the first and after the last are 0, as the recurrences of a banded matrix have them. */
const entry = (list: readonly number[], i: number): number => list[i] ?? 0;

/** R + weight·QᵀΣ²Q for the inner stations, factored as L·D·Lᵀ. */
class ReinschSystem {
  /** Column j of Q: the weights of the second difference at inner station j. */
  private readonly qColumns: readonly Band[];
  private readonly pivots: number[] = [];
  /** The two entries of L below each pivot. */
  private readonly next: number[] = [];
  private readonly nextButOne: number[] = [];
  private readonly heights: readonly number[];

  constructor(points: readonly Point[], sigmas: readonly number[], weight: number) {
    this.heights = points.map(({ y }) => y);
    const gaps = neighbors(points).map(([a, b]) => b.x - a.x);
    this.qColumns = neighbors(gaps).map(([a, b]) => [1 / a, -1 / a - 1 / b, 1 / b]);
    const inner = this.qColumns.length;
    const cover = (j: number, k: number): number => {
      let sum = 0;
      for (let i = k; i <= j + 2; i++) sum += this.q(i, j) * this.q(i, k) * entry(sigmas, i) ** 2;
      return weight * sum;
    };
    for (const [j, [a, b]] of neighbors(gaps).entries()) {
      const [p1, p2] = [entry(this.pivots, j - 1), entry(this.pivots, j - 2)];
      const [n1, m2] = [entry(this.next, j - 1), entry(this.nextButOne, j - 2)];
      const m1 = entry(this.nextButOne, j - 1);
      const pivot = (a + b) / 3 + cover(j, j) - n1 * n1 * p1 - m2 * m2 * p2;
      this.pivots.push(pivot);
      this.next.push(j + 1 < inner ? (b / 6 + cover(j, j + 1) - m1 * n1 * p1) / pivot : 0);
      this.nextButOne.push(j + 2 < inner ? cover(j, j + 2) / pivot : 0);
    }
  }

  private q(i: number, j: number): number {
    return this.qColumns[j]?.[i - j] ?? 0;
  }

  solve(): number[] {
    const gamma: number[] = [];
    for (const [j, [a, b, c]] of this.qColumns.entries()) {
      gamma.push(
        a * entry(this.heights, j) +
          b * entry(this.heights, j + 1) +
          c * entry(this.heights, j + 2) -
          entry(this.next, j - 1) * entry(gamma, j - 1) -
          entry(this.nextButOne, j - 2) * entry(gamma, j - 2),
      );
    }
    for (let j = gamma.length - 1; j >= 0; j--)
      gamma[j] =
        entry(gamma, j) / entry(this.pivots, j) -
        entry(this.next, j) * entry(gamma, j + 1) -
        entry(this.nextButOne, j) * entry(gamma, j + 2);
    return gamma;
  }

  multiplyQ(gamma: readonly number[]): number[] {
    return this.heights.map((_, i) => this.qRow(i).reduce((sum, [j, q]) => sum + q * entry(gamma, j), 0));
  }

  /** The middle of the inverse: of each row the diagonal and the two entries after it. */
  inverse(): Band[] {
    const bands: Band[] = [];
    const at = (j: number, k: 0 | 1 | 2): number => bands[j]?.[k] ?? 0;
    for (let j = this.qColumns.length - 1; j >= 0; j--) {
      const [n, m] = [entry(this.next, j), entry(this.nextButOne, j)];
      const one = -n * at(j + 1, 0) - m * at(j + 1, 1);
      const two = -n * at(j + 1, 1) - m * at(j + 2, 0);
      bands[j] = [1 / entry(this.pivots, j) - n * one - m * two, one, two];
    }
    return bands;
  }

  /** The diagonal entry i of Q·inverse·Qᵀ. */
  leverage(inverse: readonly Band[], i: number): number {
    const row = this.qRow(i);
    const inverseAt = (j: number, k: number): number => inverse[Math.min(j, k)]?.[Math.abs(j - k)] ?? 0;
    const along = ([j, q]: readonly [number, number]): number =>
      row.reduce((sum, [k, r]) => sum + q * r * inverseAt(j, k), 0);
    return row.reduce((sum, each) => sum + along(each), 0);
  }

  private qRow(i: number): [column: number, entry: number][] {
    return [i - 2, i - 1, i].filter((j) => j >= 0 && j < this.qColumns.length).map((j) => [j, this.q(i, j)]);
  }
}

/** Halvings of the weight’s logarithm: its range of 44 shrinks to the rounding of a double. */
const BISECTION_STEPS = 60;
/** Weights per length³/sigma², from a curve through every point to a straight line: a double resolves no more. */
const [MIN_WEIGHT, MAX_WEIGHT] = [1e-16, 1e3];

/** Discrepancy principle: the misfit equals the degrees of freedom that the curve leaves, or it would be too stiff. */
export function fairCurve(data: WeightedPoints): SmoothedCurve {
  const length = lastOf(data.points).x - firstOf(data.points).x;
  const unit = length ** 3 / Math.max(...data.sigmas) ** 2;
  const tooStiff = ({ misfit, degreesOfFreedom }: SmoothedCurve): boolean => misfit > degreesOfFreedom;
  let [low, high] = [Math.log(MIN_WEIGHT * unit), Math.log(MAX_WEIGHT * unit)];
  const stiffest = smoothingSpline(data, Math.exp(high));
  if (!tooStiff(stiffest)) return stiffest;
  for (let i = 0; i < BISECTION_STEPS; i++) {
    const middle = (low + high) / 2;
    if (tooStiff(smoothingSpline(data, Math.exp(middle)))) high = middle;
    else low = middle;
  }
  return smoothingSpline(data, Math.exp(low));
}

/** Stations nearer than this are one, mm: no rule tells them apart, and a curve between them shows only error. */
const SAME_STATION_MM = 0.01;

/** Points at one station become their mean. */
export function mergeStations(points: readonly Point[], sigma: number): WeightedPoints {
  const stations: { readonly x: number; readonly ys: number[] }[] = [];
  for (const { x, y } of points.toSorted((a, b) => a.x - b.x)) {
    const last = stations.at(-1);
    if (last && x - last.x < SAME_STATION_MM) last.ys.push(y);
    else stations.push({ x, ys: [y] });
  }
  return {
    points: stations.map(({ x, ys }) => ({ x, y: ys.reduce((sum, y) => sum + y, 0) / ys.length })),
    sigmas: stations.map(({ ys }) => sigma / Math.sqrt(ys.length)),
  };
}
