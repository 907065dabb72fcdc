import { along, type Place } from './along.ts';
import type { Piece } from './piece.ts';
import { leastOnUnit, PIECE_STEPS } from './search.ts';

/** The place of a piece at which something told by its places is least. Exact as `leastOnUnit` is. */
export function leastAlong(piece: Piece, of: (place: Place) => number, steps = PIECE_STEPS): Place {
  const at = along(piece);
  return at(leastOnUnit((u) => of(at(u)), steps).at);
}
