import { minimizeOn, SAMPLES_PER_PIECE } from '../numeric/roots-and-minima.ts';
import type { CurvePoint } from './evaluate.ts';
import { distance, type Point } from './point.ts';

/**
 * The place of several pieces nearest to a point, and how far off it is, mm: the pieces as `along` walks them,
 * at least one. Exact to 4e-9 of a piece along it (see `leastOnUnit`); of two as near the first.
 */
export function closestPoint(
  pieces: readonly ((u: number) => CurvePoint)[],
  to: Point,
): { readonly at: CurvePoint; readonly far: number } {
  return pieces
    .map((at) => {
      const { at: u, value: far } = minimizeOn((x) => distance(at(x), to), SAMPLES_PER_PIECE);
      return { at: at(u), far };
    })
    .reduce((best, one) => (one.far < best.far ? one : best));
}
