import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../src/curves/geometry/point.ts';
import { minimizeOn } from '../../src/curves/numeric/roots-and-minima.ts';

/** Distance from a point to a piece: a search of its own, finer than the one that made it. */
export function distanceTo(piece: Piece, p: Point): number {
  const at = paramCurve(piece);
  return minimizeOn((u) => distance(at(u), p), 64).value;
}

/** Places spread evenly by parameter along pieces. */
export const spread = (pieces: readonly Piece[], each: number): Point[] =>
  pieces.flatMap((piece) => {
    const at = paramCurve(piece);
    return Array.from({ length: each + 1 }, (_, i) => at(i / each));
  });

/** The farthest that any of the points lies from the nearest piece. */
export const worstDistance = (points: readonly Point[], pieces: readonly Piece[]): number =>
  Math.max(...points.map((p) => Math.min(...pieces.map((piece) => distanceTo(piece, p)))));

/** The largest gap between the end of one piece and the start of the next, mm. */
export function largestGap(pieces: readonly Piece[]): number {
  return Math.max(
    0,
    ...pieces.slice(1).map((piece, i) => distance(paramCurve(pieces[i]!)(1), paramCurve(piece)(0))),
  );
}
