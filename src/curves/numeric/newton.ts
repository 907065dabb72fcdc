/** Step of the difference quotients: half the digits of a double, for unknowns of order 1. */
const PROBE = 1e-7;

/** Where Newton's method came to rest. */
export interface NewtonRoot {
  readonly solution: readonly number[];
  /** Sign of the slopes' determinant: it turns where two branches of solutions meet. */
  readonly determinantSign: number;
}

export interface NewtonOptions {
  /** Stops after a step whose every part is smaller; what is left is about PROBE times that. */
  readonly stepTolerance: number;
  /** Shortens a step that would go too far; returns the unknowns to go on with. */
  readonly limitStep: (at: readonly number[], next: readonly number[]) => readonly number[];
  readonly maxSteps: number;
}

/**
 * Newton's method for as many equations as unknowns, all of order 1, with slopes by differences.
 * @returns undefined when it does not settle or the equations do not hold a number
 */
export function newtonSystem(
  f: (at: readonly number[]) => readonly number[],
  start: readonly number[],
  { stepTolerance, limitStep, maxSteps }: NewtonOptions,
): NewtonRoot | undefined {
  let at = start;
  for (let i = 0; i < maxSteps; i++) {
    const now = f(at);
    const columns = at.map((_, j) => {
      const moved = f(at.with(j, at[j]! + PROBE));
      return moved.map((value, k) => (value - now[k]!) / PROBE);
    });
    const rows = now.map((value, k) => [...columns.map((column) => column[k]!), -value]);
    const solved = gaussianElimination(rows);
    if (!solved) return undefined;
    const next = at.map((value, j) => value + solved.values[j]!);
    if (solved.values.every((step) => Math.abs(step) <= stepTolerance))
      return { solution: next, determinantSign: solved.side };
    at = limitStep(at, next);
  }
  return undefined;
}

/** Gauss's elimination with row pivots; every row ends with its right-hand side. Spoils the rows. */
function gaussianElimination(rows: number[][]): { values: number[]; side: number } | undefined {
  const n = rows.length;
  let side = 1;
  for (let i = 0; i < n; i++) {
    let best = i;
    for (let k = i + 1; k < n; k++) if (Math.abs(rows[k]![i]!) > Math.abs(rows[best]![i]!)) best = k;
    const pivot = rows[best]!;
    if (!(Math.abs(pivot[i]!) > 0) || !pivot.every(Number.isFinite)) return undefined;
    if (best !== i) [rows[best], rows[i], side] = [rows[i]!, pivot, -side];
    side *= Math.sign(pivot[i]!);
    for (let k = i + 1; k < n; k++) {
      const row = rows[k]!;
      const share = row[i]! / pivot[i]!;
      for (let j = i; j <= n; j++) row[j]! -= share * pivot[j]!;
    }
  }
  const values: number[] = new Array(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let right = rows[i]![n]!;
    for (let j = i + 1; j < n; j++) right -= rows[i]![j]! * values[j]!;
    values[i] = right / rows[i]![i]!;
  }
  return { values, side };
}
