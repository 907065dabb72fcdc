import { leastOnUnit, PIECE_STEPS, rootsOnUnit } from '../numeric/roots-and-minima.ts';
import { along, type Place } from './evaluate.ts';
import type { Piece } from './pieces/piece.ts';

/** The place of a piece at which something told by its places is least. Exact as `leastOnUnit` is. */
export function leastAlong(piece: Piece, of: (place: Place) => number, steps = PIECE_STEPS): Place {
  const at = along(piece);
  return at(leastOnUnit((u) => of(at(u)), steps).at);
}

/** Over 0 by less than this is the rounding of a root. */
const ROUNDING = 1e-9;

/** Of each stretch of a piece in which something told by its places is over 0, the place where it is most. */
export function peaksAlong(piece: Piece, of: (place: Place) => number): Place[] {
  const at = along(piece);
  const bounds = [0, ...rootsOnUnit((u) => of(at(u)), PIECE_STEPS), 1];
  return bounds.slice(1).flatMap((to, i) => {
    const from = bounds[i]!;
    if (to <= from) return [];
    const place = (u: number): Place => at(from + u * (to - from));
    const peak = place(leastOnUnit((u) => -of(place(u)), PIECE_STEPS).at);
    return of(peak) > ROUNDING ? [peak] : [];
  });
}
