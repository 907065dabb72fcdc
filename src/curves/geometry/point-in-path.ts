import { lastOf } from '../../units/checked.ts';
import { paramCurve, pieceEnd } from './evaluate.ts';
import type { Segment } from './pieces/piece.ts';
import { type Point, sideOf } from './point.ts';

/** Chords of a curved segment: no point is asked about that lies as near to a line as a chord's sag. */
const CHORDS = 32;

/** Whether a point lies inside a closed path, not on it: the path winds round it. */
export function isPointInPath(path: readonly Segment[], at: Point): boolean {
  let windings = 0;
  let from: Point = pieceEnd(lastOf(path));
  for (const segment of path) {
    const place = paramCurve(segment);
    const chords = segment.type === 'line' ? 1 : CHORDS;
    for (let i = 1; i <= chords; i++) {
      const to = place(i / chords);
      const isUpward = to.y > from.y;
      const passesLevel = from.y <= at.y !== to.y <= at.y;
      if (passesLevel && sideOf(from, to, at) > 0 === isUpward) windings += isUpward ? 1 : -1;
      from = to;
    }
  }
  return windings !== 0;
}
