import type { Point } from '../../curves/geometry/point.ts';
import { normalEquations, solveSymmetric } from '../../curves/numeric/linear-algebra.ts';
import { itemAt } from '../../units/checked.ts';
import { type LeastSquaresFit, levenbergMarquardt } from './levenberg-marquardt.ts';
import { sumOfSquares } from './rigid-fit.ts';

/*
 * The model and the set of wrong readings of least cost win together. A wrong reading has its own unknown error ("mean
 * shift"), so that it costs an unknown and the choice among all readings. Sources: Schwarz, "Estimating the dimension
 * of a model", Annals of Statistics 6, 1978; Cook & Weisberg, "Residuals and Influence in Regression", 1982, §2.2.
 */

/** A good reading saves as much by chance at four standard deviations: once in sixteen thousand readings. */
export const WRONG_READING_COST = 16;
/** What each pin of a spline costs, as pins bend to any readings. */
export const PIN_COST = WRONG_READING_COST / 2;

/** The hand may err this many times as much as is taken for it; what is farther off is no error of the hand. */
const MAX_SPREAD = 2;

/** More wrong readings than this share, or than this many, and all of them are doubtful. */
const [MAX_WRONG_SHARE, MAX_WRONG] = [0.2, 6];

/** Readings beyond the unknowns of the model: with fewer nothing contradicts the rest. */
const MIN_SPARE = 2;

function maxWrong(readings: number, unknowns: number): number {
  const share = Math.max(1, Math.floor(readings * MAX_WRONG_SHARE));
  return Math.max(0, Math.min(share, MAX_WRONG, readings - unknowns - MIN_SPARE));
}

/** −2·ln(likelihood) of the good residuals, their spread taken from themselves between sigma and MAX_SPREAD·sigma. */
function misfitCost(residuals: readonly number[], sigma: number): number {
  const sum = sumOfSquares(residuals) / sigma ** 2;
  const spread = Math.min(Math.max(sum / residuals.length, 1), MAX_SPREAD ** 2);
  return sum / spread + residuals.length * Math.log(spread);
}

export interface Model {
  readonly start: readonly number[];
  readonly cost: number;
  /** Undefined where there is no such curve. */
  readonly residuals: (parameters: readonly number[], points: readonly Point[]) => number[] | undefined;
}

/** The residuals are those of the readings that are kept. */
export interface ModelFit extends Omit<LeastSquaresFit, 'columns'> {
  readonly wrong: readonly Point[];
  readonly cost: number;
}

/** Two readings that are wrong can hide each other, so that leaving out the first of them gains too little. */
const MAX_VAIN_STEPS = 1;

/** Fits a model to all readings, then without the reading that contradicts it most, and so on; the least cost wins. */
export function fitModel(model: Model, readings: readonly Point[], sigma: number): ModelFit | undefined {
  const most = maxWrong(readings.length, model.start.length);
  let best: ModelFit | undefined;
  let [kept, start] = [readings, model.start];
  let wrong: readonly Point[] = [];
  for (let count = 0; count <= most; count++) {
    const least = model.cost + count * WRONG_READING_COST;
    if (best && (best.cost <= least || count > best.wrong.length + MAX_VAIN_STEPS)) break;
    const fit = levenbergMarquardt((at) => model.residuals(at, kept), start);
    if (!fit) break;
    const { parameters, residuals } = fit;
    const cost = misfitCost(residuals, sigma) + least;
    if (!(cost >= (best?.cost ?? Number.POSITIVE_INFINITY))) best = { parameters, residuals, wrong, cost };
    if (isFarOff(residuals, sigma)) break;
    const suspect = itemAt(kept, mostContradicting(fit));
    wrong = [...wrong, suspect];
    kept = kept.filter((p) => p !== suspect);
    start = parameters;
  }
  return best;
}

/** Among so many readings a wrong one moves the curve little: where a third of them are far off, the model is wrong. */
const MANY_READINGS = 40;

const isFarOff = (residuals: readonly number[], sigma: number): boolean =>
  residuals.length > MANY_READINGS &&
  residuals.filter((off) => Math.abs(off) > 2 * MAX_SPREAD * sigma).length > residuals.length / 3;

/** A reading that alone decides a parameter has no freedom left; rounding is far below this. */
const MIN_FREEDOM = 1e-6;

/** By r²/(1 − h), its residual r and leverage h: what leaving it out takes off the sum of squares (Cook & Weisberg). */
function mostContradicting({ residuals, columns }: LeastSquaresFit): number {
  const rows = residuals.map((_, k) => columns.map((column) => itemAt(column, k)));
  const { matrix } = normalEquations(rows, residuals);
  const gains = residuals.map((residual, k) => {
    const row = itemAt(rows, k);
    const solved = solveSymmetric(matrix, row) ?? [];
    const leverage = row.reduce((sum, value, j) => sum + value * (solved[j] ?? 0), 0);
    return residual ** 2 / Math.max(1 - leverage, MIN_FREEDOM);
  });
  return gains.indexOf(Math.max(...gains));
}
