import type { Point } from '../../curves/geometry/point.ts';

/** Points at rising stations, with the standard error of each, mm. */
export interface WeightedPoints {
  readonly points: readonly Point[];
  readonly sigmas: readonly number[];
}

/** The natural cubic spline near some points, as its values at their stations. */
export interface SmoothedCurve {
  readonly points: readonly Point[];
  /** Standard error of each value, mm, given the points' own errors. */
  readonly errors: readonly number[];
  /** Σ((value − point)/sigma)². */
  readonly misfit: number;
  /** The number of points less the degrees of freedom that the curve takes up. */
  readonly degreesOfFreedom: number;
}

/**
 * The curve of least Σ((y − g)/sigma)² + weight·∫g″²: a natural cubic spline (Reinsch, "Smoothing by spline functions",
 * Numerische Mathematik 10, 1967). Weight 0 passes through every point.
 *
 * As there, it solves (R + weight·QᵀΣ²Q)γ = Qᵀy for the second derivatives γ; then g = y − weight·Σ²Qγ. R and Q are the
 * tridiagonal matrices of the spacings. The errors come from the middle bands of the inverse (Hutchinson & de Hoog,
 * "Smoothing noisy data with spline functions", Numerische Mathematik 47, 1985). Time is linear in the points.
 * @param weight ≥ 0, mm³ per unit of misfit
 */
export function smoothingSpline({ points, sigmas }: WeightedPoints, weight: number): SmoothedCurve {
  const bands = new ReinschSystem(points, sigmas, weight);
  const bends = bands.solve();
  const pulls = bands.multiplyQ(bends);
  const inverse = bands.inverse();
  let [misfit, degreesOfFreedom] = [0, 0];
  const errors: number[] = [];
  const values = points.map(({ x, y }, i) => {
    const variance = sigmas[i]! ** 2;
    const off = weight * variance * pulls[i]!;
    const free = weight * variance * bands.leverage(inverse, i);
    misfit += (off / sigmas[i]!) ** 2;
    degreesOfFreedom += free;
    errors.push(sigmas[i]! * Math.sqrt(Math.max(0, 1 - free)));
    return { x, y: y - off };
  });
  return { points: values, errors, misfit, degreesOfFreedom };
}

type InverseBand = readonly [number, number, number];

/** R + weight·QᵀΣ²Q for the inner stations, factored as L·D·Lᵀ. */
class ReinschSystem {
  private readonly inner: number;
  /** Column j of Q: the weights of the second difference at inner station j. */
  private readonly qColumns: InverseBand[] = [];
  private readonly pivots: number[] = [];
  private readonly next: number[] = [];
  private readonly nextButOne: number[] = [];
  private readonly heights: readonly number[];

  constructor(points: readonly Point[], sigmas: readonly number[], weight: number) {
    this.inner = points.length - 2;
    this.heights = points.map(({ y }) => y);
    const gaps = points.slice(1).map(({ x }, i) => x - points[i]!.x);
    for (let j = 0; j < this.inner; j++) {
      const [before, after] = [1 / gaps[j]!, 1 / gaps[j + 1]!];
      this.qColumns.push([before, -before - after, after]);
    }
    this.factor(gaps, sigmas, weight);
  }

  private factor(gaps: readonly number[], sigmas: readonly number[], weight: number): void {
    const cover = (j: number, k: number): number => {
      let sum = 0;
      for (let i = k; i <= j + 2; i++)
        sum += (this.qColumns[j]![i - j] ?? 0) * (this.qColumns[k]?.[i - k] ?? 0) * sigmas[i]! ** 2;
      return weight * sum;
    };
    for (let j = 0; j < this.inner; j++) {
      const [p1, p2] = [this.pivots[j - 1] ?? 0, this.pivots[j - 2] ?? 0];
      const [n1, m2] = [this.next[j - 1] ?? 0, this.nextButOne[j - 2] ?? 0];
      const m1 = this.nextButOne[j - 1] ?? 0;
      const pivot = (gaps[j]! + gaps[j + 1]!) / 3 + cover(j, j) - n1 * n1 * p1 - m2 * m2 * p2;
      this.pivots.push(pivot);
      this.next.push(j + 1 < this.inner ? (gaps[j + 1]! / 6 + cover(j, j + 1) - m1 * n1 * p1) / pivot : 0);
      this.nextButOne.push(j + 2 < this.inner ? cover(j, j + 2) / pivot : 0);
    }
  }

  /** γ, the second derivatives at the inner stations. */
  solve(): number[] {
    const bends: number[] = [];
    for (let j = 0; j < this.inner; j++) {
      const [a, b, c] = this.qColumns[j]!;
      const right = a * this.heights[j]! + b * this.heights[j + 1]! + c * this.heights[j + 2]!;
      bends.push(
        right -
          (this.next[j - 1] ?? 0) * (bends[j - 1] ?? 0) -
          (this.nextButOne[j - 2] ?? 0) * (bends[j - 2] ?? 0),
      );
    }
    for (let j = this.inner - 1; j >= 0; j--)
      bends[j] =
        bends[j]! / this.pivots[j]! -
        this.next[j]! * (bends[j + 1] ?? 0) -
        this.nextButOne[j]! * (bends[j + 2] ?? 0);
    return bends;
  }

  /** Qγ, point by point. */
  multiplyQ(bends: readonly number[]): number[] {
    return this.heights.map((_, i) => this.qRow(i).reduce((sum, [j, q]) => sum + q * bends[j]!, 0));
  }

  /** The middle of the inverse: of each row the diagonal and the two entries after it. */
  inverse(): InverseBand[] {
    const bands: InverseBand[] = [];
    const at = (j: number, k: 0 | 1 | 2): number => bands[j]?.[k] ?? 0;
    for (let j = this.inner - 1; j >= 0; j--) {
      const [n, m] = [this.next[j]!, this.nextButOne[j]!];
      const one = -n * at(j + 1, 0) - m * at(j + 1, 1);
      const two = -n * at(j + 1, 1) - m * at(j + 2, 0);
      bands[j] = [1 / this.pivots[j]! - n * one - m * two, one, two];
    }
    return bands;
  }

  /** The diagonal entry i of Q·inverse·Qᵀ. */
  leverage(inverse: readonly InverseBand[], i: number): number {
    const row = this.qRow(i);
    return row.reduce(
      (sum, [j, q]) =>
        sum +
        row.reduce(
          (part, [k, r]) => part + q * r * inverse[Math.min(j, k)]![Math.abs(j - k) as 0 | 1 | 2],
          0,
        ),
      0,
    );
  }

  private qRow(i: number): [column: number, take: number][] {
    return [i - 2, i - 1, i]
      .filter((j) => j >= 0 && j < this.inner)
      .map((j) => [j, this.qColumns[j]![i - j]!] as [number, number]);
  }
}

/** Halvings of the weight’s logarithm: its range of 44 shrinks to the rounding of a double. */
const BISECTION_STEPS = 60;
/** Weights per length³/sigma², from a curve through every point to a straight line: a double resolves no more. */
const [MIN_WEIGHT, MAX_WEIGHT] = [1e-16, 1e3];

/**
 * The fairest curve that the points' errors allow, by the discrepancy principle: the misfit equals the degrees of
 * freedom. Without the freedom that the curve takes up, the curve would come out too stiff.
 * @param data three points or more
 */
export function fairCurve(data: WeightedPoints): SmoothedCurve {
  const [from, to] = [data.points[0]!.x, data.points.at(-1)!.x];
  const unit = (to - from) ** 3 / Math.max(...data.sigmas) ** 2;
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

/** Points at rising stations; points at one station become their mean. */
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
