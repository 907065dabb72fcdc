import { normalEquations, solveSymmetric } from '../../curves/numeric/linear-algebra.ts';
import { itemAt } from '../../units/checked.ts';
import { sumOfSquares } from './rigid-fit.ts';

/** A fit to readings converges in 5 to 15 trial steps. */
const MAX_TRIAL_STEPS = 60;
/** Step of the difference quotients, mm: far above rounding, far below what bends a curve. */
const DIFFERENCE_STEP_MM = 1e-4;
/** The fit has converged when a step improves the sum of squares by less than this share. */
const MIN_GAIN = 1e-8;
/** After a smaller gain the Jacobian has hardly changed; it is the expensive part, so it is reused. */
const REUSE_JACOBIAN_GAIN = 0.02;
/** Source: Marquardt, "An algorithm for least-squares estimation of nonlinear parameters", 1963. */
const [DAMPING, DAMPING_DECREASE, DAMPING_INCREASE] = [1e-3, 0.2, 5];

/** Residuals at some parameters, mm; undefined where there is no such curve. */
export type ResidualFunction = (at: readonly number[]) => readonly number[] | undefined;

export interface LeastSquaresFit {
  readonly parameters: readonly number[];
  readonly residuals: readonly number[];
  /** The Jacobian near the solution: how the residuals change by each parameter. */
  readonly columns: readonly (readonly number[])[];
}

/** Damped Gauss–Newton from parameters near the solution, mm; undefined when there is no curve at the start. */
export function levenbergMarquardt(
  residuals: ResidualFunction,
  start: readonly number[],
): LeastSquaresFit | undefined {
  let parameters = start;
  let now = residuals(parameters);
  if (!now) return undefined;
  let damping = DAMPING;
  let columns = jacobianColumns(residuals, parameters, now);
  for (let i = 0; i < MAX_TRIAL_STEPS && columns; i++) {
    const step = dampedStep(columns, now, damping);
    const moved = step && parameters.map((value, j) => value + itemAt(step, j));
    const next = moved && residuals(moved);
    if (moved && next && sumOfSquares(next) <= sumOfSquares(now)) {
      const gain = 1 - sumOfSquares(next) / sumOfSquares(now);
      [parameters, now, damping] = [moved, next, damping * DAMPING_DECREASE];
      if (!(gain > MIN_GAIN)) break;
      if (gain > REUSE_JACOBIAN_GAIN) columns = jacobianColumns(residuals, parameters, now);
    } else damping *= DAMPING_INCREASE;
  }
  return { parameters, residuals: now, columns: columns ?? [] };
}

function jacobianColumns(
  residuals: ResidualFunction,
  at: readonly number[],
  now: readonly number[],
): number[][] | undefined {
  const columns: number[][] = [];
  for (const [j, value] of at.entries()) {
    const moved = residuals(at.with(j, value + DIFFERENCE_STEP_MM));
    if (!moved) return undefined;
    columns.push(moved.map((each, k) => (each - itemAt(now, k)) / DIFFERENCE_STEP_MM));
  }
  return columns;
}

function dampedStep(columns: readonly number[][], now: readonly number[], damping: number) {
  const rows = now.map((_, k) => columns.map((column) => itemAt(column, k)));
  const wanted = now.map((value) => -value);
  const { matrix, right } = normalEquations(rows, wanted);
  for (const [i, row] of matrix.entries()) row[i] = itemAt(row, i) * (1 + damping);
  return solveSymmetric(matrix, right);
}
