import type { Piece } from '../curves/piece.ts';
import { pieceStretch } from '../curves/stretch.ts';
import { cutAt, isSquare, type PartEnd } from './ends.ts';
import type { Part, PartEdge } from './part.ts';
import { type Cut, trimmed } from './trim.ts';

/** What the end cuts leave of an edge on the marked face, exact, from left to right. */
export function faceEdge({ runs }: PartEdge, { ends }: Pick<Part, 'ends'>): readonly Piece[] {
  const pieces = runs.flatMap(({ exact }) => exact);
  if (!ends || ends.every(isSquare)) return pieces;
  const [left, right] = ends;
  return trimmed(pieces, { left: faceCut(left), right: faceCut(right) }, pieceStretch);
}

function faceCut({ side, angles, face }: PartEnd): Cut {
  const reach = face[0].x + Math.tan(angles.rake) * face[0].y;
  return cutAt({ side, angles, reach }, 0);
}
