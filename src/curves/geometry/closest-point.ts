import type { Piece } from './pieces/piece.ts';
import type { Point } from './point.ts';
import { type ClosestPoint, PolylineBvh } from './polyline-bvh.ts';

/** Segments of a piece that is searched for one point only: building a finer polyline costs more than the search. */
const SEGMENTS_FOR_ONE = 16;

/** The place of several pieces, at least one, closest to a point. For many points keep a `PolylineBvh` of the pieces. */
export const closestPoint = (pieces: readonly Piece[], to: Point): ClosestPoint =>
  new PolylineBvh(pieces, SEGMENTS_FOR_ONE).closestPoint(to);

/** The greatest distance of some places from pieces, mm (the one-sided Hausdorff distance). */
export function maxDeviation(places: Iterable<Point>, pieces: readonly Piece[]): number {
  const polyline = new PolylineBvh(pieces);
  return Math.max(0, ...[...places].map((place) => polyline.closestPoint(place).distance));
}
