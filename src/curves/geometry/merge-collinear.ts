import type { Segment } from './pieces/piece.ts';
import { cross, distance, dot, subtract } from './point.ts';
import { JOIN_MM } from './tolerance.ts';

/** A path with its lines made one where they run straight on from one to the next. */
export function mergeCollinear(path: readonly Segment[]): Segment[] {
  const joined: Segment[] = [];
  for (const segment of path) {
    const last = joined.at(-1);
    if (last?.type === 'line' && segment.type === 'line') {
      const [way, next] = [subtract(last.to, last.from), subtract(segment.to, segment.from)];
      const whole = subtract(segment.to, last.from);
      const aside = Math.abs(cross(way, whole)) / Math.hypot(whole.x, whole.y);
      const gap = distance(last.to, segment.from);
      if (dot(way, next) > 0 && aside < JOIN_MM && gap < JOIN_MM) {
        joined[joined.length - 1] = { type: 'line', from: last.from, to: segment.to };
        continue;
      }
    }
    joined.push(segment);
  }
  return joined;
}
