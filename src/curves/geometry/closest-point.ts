import { leastOnUnit, PIECE_STEPS } from '../numeric/roots-and-minima.ts';
import type { Place } from './evaluate.ts';
import { distance, type Point } from './point.ts';

/**
 * The place of several pieces nearest to a point, and how far off it is, mm: the pieces as `along` walks them,
 * at least one. Exact to 4e-9 of a piece along it (see `leastOnUnit`); of two as near the first.
 */
export function nearestOn(
  pieces: readonly ((u: number) => Place)[],
  to: Point,
): { readonly at: Place; readonly far: number } {
  return pieces
    .map((at) => {
      const { at: u, value: far } = leastOnUnit((x) => distance(at(x), to), PIECE_STEPS);
      return { at: at(u), far };
    })
    .reduce((best, one) => (one.far < best.far ? one : best));
}
