import { along } from './along.ts';
import type { Segment } from './piece.ts';
import { distance, type Point, point } from './point.ts';

/**
 * The corners of chords that lie within `tolerance` (mm) of contiguous segments: the first segment's start, then
 * the end of every chord. An arc of sweep φ in n parts has the sag r(1 − cos(φ/2n)); a cubic, evenly divided,
 * one of at most max|B″|/8n², and its second derivative is greatest at an end.
 */
export function chordsOf(path: readonly Segment[], tolerance: number): Point[] {
  const corners = path.flatMap((segment, i) => {
    const at = along(segment);
    const count = chordCount(segment, tolerance);
    return Array.from({ length: i === 0 ? count + 1 : count }, (_, k): Point => {
      const { x, y } = at((i === 0 ? k : k + 1) / count);
      return point(x, y);
    });
  });
  return corners;
}

/** A circle of any size in a workshop takes fewer; more would be a tolerance that is none. */
const MOST_CHORDS = 10_000;

function chordCount(segment: Segment, tolerance: number): number {
  switch (segment.type) {
    case 'line':
      return 1;
    case 'arc': {
      const most = 2 * Math.acos(Math.max(0, 1 - tolerance / segment.radius));
      return within(Math.abs(segment.sweep) / most);
    }
    case 'cubic': {
      const [p, q, r, s] = segment.controls;
      const bend = (a: Point, b: Point, c: Point): number =>
        distance(point(a.x + c.x, a.y + c.y), point(2 * b.x, 2 * b.y));
      return within(Math.sqrt((6 * Math.max(bend(p, q, r), bend(q, r, s))) / (8 * tolerance)));
    }
  }
}

const within = (count: number): number => Math.min(Math.max(1, Math.ceil(count)), MOST_CHORDS);
