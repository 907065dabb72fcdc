/** A pivot below this share of its row's scale says that the unknowns cannot be told apart: rounding is 1e-16. */
const MIN_PIVOT_RATIO = 1e-13;

/**
 * Solves a symmetric positive definite system by Gauss's elimination (no pivots needed: Cholesky's case).
 * @param matrix n rows of n; left as it is
 * @returns undefined where the unknowns cannot be told apart
 */
export function solveSymmetric(
  matrix: readonly (readonly number[])[],
  right: readonly number[],
): number[] | undefined {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  for (let i = 0; i < n; i++) {
    const row = rows[i]!;
    if (!(row[i]! > MIN_PIVOT_RATIO * matrix[i]![i]!)) return undefined;
    for (let k = i + 1; k < n; k++) {
      const below = rows[k]!;
      const share = below[i]! / row[i]!;
      for (let j = i; j <= n; j++) below[j]! -= share * row[j]!;
    }
  }
  const values: number[] = new Array(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let rest = rows[i]![n]!;
    for (let j = i + 1; j < n; j++) rest -= rows[i]![j]! * values[j]!;
    values[i] = rest / rows[i]![i]!;
  }
  return values;
}

/** The normal equations of rows: their products with each other, and with the right-hand sides. */
export function normalEquations(
  rows: readonly (readonly number[])[],
  right: readonly number[],
): { matrix: number[][]; right: number[] } {
  const n = rows[0]?.length ?? 0;
  const unknowns = Array.from({ length: n }, (_, i) => i);
  const product = (i: number, j: number): number => rows.reduce((sum, row) => sum + row[i]! * row[j]!, 0);
  return {
    matrix: unknowns.map((i) => unknowns.map((j) => product(i, j))),
    right: unknowns.map((i) => rows.reduce((sum, row, k) => sum + row[i]! * right[k]!, 0)),
  };
}
