import { itemAt } from '../../units/checked.ts';

/** A pivot below this share of its row's scale, against rounding of 1e-16, means that the matrix is singular. */
const MIN_PIVOT_RATIO = 1e-13;

/** Solves a symmetric positive definite system, which needs no pivots. @returns undefined where it is singular */
export function solveSymmetric(
  matrix: readonly (readonly number[])[],
  right: readonly number[],
): number[] | undefined {
  const rows = matrix.map((row, i) => [...row, itemAt(right, i)]);
  for (const [i, row] of rows.entries()) {
    if (!(itemAt(row, i) > MIN_PIVOT_RATIO * itemAt(itemAt(matrix, i), i))) return undefined;
    clearColumnBelow(rows, i);
  }
  return backSubstitute(rows);
}

/** The lower triangle L of L·Lᵀ = a symmetric positive definite matrix, row by row. @returns undefined if it is not */
export function cholesky(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const lower: number[][] = [];
  for (const [i, row] of matrix.entries()) {
    const current: number[] = [];
    for (let j = 0; j <= i; j++) {
      const other = j === i ? current : itemAt(lower, j);
      let rest = itemAt(row, j);
      for (let k = 0; k < j; k++) rest -= itemAt(current, k) * itemAt(other, k);
      if (j < i) current.push(rest / itemAt(other, j));
      else if (rest > MIN_PIVOT_RATIO * itemAt(row, i)) current.push(Math.sqrt(rest));
      else return undefined;
    }
    lower.push(current);
  }
  return lower;
}

/** Solves L·x = right for a lower triangle L. */
export function forwardSubstitute(lower: readonly (readonly number[])[], right: readonly number[]): number[] {
  const values: number[] = [];
  for (const [i, row] of lower.entries()) {
    let rest = itemAt(right, i);
    for (let j = 0; j < i; j++) rest -= itemAt(row, j) * itemAt(values, j);
    values.push(rest / itemAt(row, i));
  }
  return values;
}

/** The normal equations of rows: their products with each other, and with the right-hand sides. */
export function normalEquations(
  rows: readonly (readonly number[])[],
  right: readonly number[],
): { matrix: number[][]; right: number[] } {
  const unknowns = [...(rows[0] ?? []).keys()];
  const product = (i: number, j: number): number =>
    rows.reduce((sum, row) => sum + itemAt(row, i) * itemAt(row, j), 0);
  return {
    matrix: unknowns.map((i) => unknowns.map((j) => product(i, j))),
    right: unknowns.map((i) => rows.reduce((sum, row, k) => sum + itemAt(row, i) * itemAt(right, k), 0)),
  };
}

/** With row pivots; each row has its right-hand side behind it. @returns undefined if singular or not finite */
export function gaussianElimination(
  rows: readonly (readonly number[])[],
): { values: number[]; determinantSign: number } | undefined {
  const work = rows.map((row) => [...row]);
  let determinantSign = 1;
  for (const i of work.keys()) {
    const sizes = work.slice(i).map((row) => Math.abs(itemAt(row, i)));
    const best = i + sizes.indexOf(Math.max(...sizes));
    const [row, pivot] = [itemAt(work, i), itemAt(work, best)];
    if (!(Math.abs(itemAt(pivot, i)) > 0) || !pivot.every(Number.isFinite)) return undefined;
    [work[best], work[i]] = [row, pivot];
    determinantSign *= Math.sign(itemAt(pivot, i)) * (best === i ? 1 : -1);
    clearColumnBelow(work, i);
  }
  return { values: backSubstitute(work), determinantSign };
}

function clearColumnBelow(rows: readonly number[][], i: number): void {
  const pivot = itemAt(rows, i);
  for (const row of rows.slice(i + 1)) {
    const share = itemAt(row, i) / itemAt(pivot, i);
    for (let j = i; j < pivot.length; j++) row[j] = itemAt(row, j) - share * itemAt(pivot, j);
  }
}

function backSubstitute(rows: readonly (readonly number[])[]): number[] {
  const n = rows.length;
  const values: number[] = new Array(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    const row = itemAt(rows, i);
    let rest = itemAt(row, n);
    for (let j = i + 1; j < n; j++) rest -= itemAt(row, j) * itemAt(values, j);
    values[i] = rest / itemAt(row, i);
  }
  return values;
}

export type TridiagonalRow = readonly [below: number, diagonal: number, above: number, right: number];

/** Elimination down and back (Thomas); stable where every row is diagonally dominant. */
export function solveTridiagonal(rows: readonly TridiagonalRow[]): number[] {
  const upper: number[] = [];
  const values: number[] = [];
  for (const [below, diagonal, above, right] of rows) {
    const pivot = diagonal - below * (upper.at(-1) ?? 0);
    values.push((right - below * (values.at(-1) ?? 0)) / pivot);
    upper.push(above / pivot);
  }
  for (let i = rows.length - 2; i >= 0; i--)
    values[i] = itemAt(values, i) - itemAt(upper, i) * itemAt(values, i + 1);
  return values;
}
