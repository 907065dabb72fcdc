import { itemAt } from '../../units/checked.ts';
import { gaussianElimination } from './linear-algebra.ts';

/** Step of the difference quotients: half the digits of a double, for unknowns of order 1. */
const PROBE = 1e-7;

export interface NewtonRoot {
  readonly solution: readonly number[];
  /** Sign of the slopes' determinant: it turns where two branches of solutions meet. */
  readonly determinantSign: number;
}

export interface NewtonOptions {
  /** Stops after a step whose every part is smaller; the error left is about PROBE times that. */
  readonly stepTolerance: number;
  readonly limitStep: (at: readonly number[], next: readonly number[]) => readonly number[];
  readonly maxSteps: number;
}

/** Newton's method for as many equations as unknowns, all of order 1, with slopes by differences. */
export function newtonSystem(
  f: (at: readonly number[]) => readonly number[],
  start: readonly number[],
  { stepTolerance, limitStep, maxSteps }: NewtonOptions,
): NewtonRoot | undefined {
  let at = start;
  for (let i = 0; i < maxSteps; i++) {
    const now = f(at);
    const columns = at.map((unknown, j) => {
      const moved = f(at.with(j, unknown + PROBE));
      return moved.map((value, k) => (value - itemAt(now, k)) / PROBE);
    });
    const solved = gaussianElimination(
      now.map((value, k) => [...columns.map((column) => itemAt(column, k)), -value]),
    );
    if (!solved) return undefined;
    const { values: step, determinantSign } = solved;
    const next = at.map((value, j) => value + itemAt(step, j));
    if (step.every((part) => Math.abs(part) <= stepTolerance)) return { solution: next, determinantSign };
    at = limitStep(at, next);
  }
  return undefined;
}
