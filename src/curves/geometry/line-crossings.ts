import { rootsOn, SAMPLES_PER_PIECE } from '../numeric/roots-and-minima.ts';
import { paramCurve } from './evaluate.ts';
import type { Piece } from './pieces/piece.ts';
import { dot, leftNormal, type Point, subtract } from './point.ts';

/** Where the straight line through a point along a unit vector crosses pieces: from the point, mm. */
export function lineCrossings(pieces: readonly Piece[], through: Point, way: Point): number[] {
  const aside = leftNormal(way);
  return pieces.flatMap((piece) => {
    const at = paramCurve(piece);
    const roots = rootsOn((u) => dot(subtract(at(u), through), aside), SAMPLES_PER_PIECE);
    return roots.map((u) => dot(subtract(at(u), through), way));
  });
}
