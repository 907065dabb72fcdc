import { paramCurve } from './evaluate.ts';
import type { Segment } from './pieces/piece.ts';
import { angleDifference, angleFrom, type Point } from './point.ts';

/** Chords a curved segment is walked in: a point as near to a line as a chord's sag is not asked about. */
const CHORDS = 32;

/** Whether a point lies inside a closed path, not on it: the path turns once round it. */
export function isPointInPath(path: readonly Segment[], at: Point): boolean {
  let turned = 0;
  for (const segment of path) {
    const place = paramCurve(segment);
    const chords = segment.type === 'line' ? 1 : CHORDS;
    let before = angleFrom(at, place(0));
    for (let i = 1; i <= chords; i++) {
      const next = angleFrom(at, place(i / chords));
      turned += angleDifference(before, next);
      before = next;
    }
  }
  return Math.abs(turned) > Math.PI;
}
