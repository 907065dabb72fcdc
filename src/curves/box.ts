import { bezier, segmentEnd, segmentStart } from './along.ts';
import type { Box } from './curve.ts';
import type { ArcSegment, Segment } from './piece.ts';
import { add, direction, type Point, scale } from './point.ts';

/** The segment's exact bounds: ends and extremes. */
export function segmentBox(segment: Segment): Box {
  switch (segment.type) {
    case 'line':
      return boxOf([segment.from, segment.to]);
    case 'cubic': {
      const { x, y } = bezier(segment).bbox();
      return { left: x.min, bottom: y.min, right: x.max, top: y.max };
    }
    case 'arc':
      return arcBox(segment);
  }
}

function arcBox(arc: ArcSegment): Box {
  const points: Point[] = [segmentStart(arc), segmentEnd(arc)];
  const [low, high] = [Math.min(0, arc.sweep) + arc.start, Math.max(0, arc.sweep) + arc.start];
  const quarter = Math.PI / 2;
  for (let k = Math.ceil(low / quarter); k * quarter <= high; k++)
    points.push(add(arc.centre, scale(direction(k * quarter), arc.radius)));
  return boxOf(points);
}

export const boxOf = (points: readonly Point[]): Box => ({
  left: Math.min(...points.map(({ x }) => x)),
  bottom: Math.min(...points.map(({ y }) => y)),
  right: Math.max(...points.map(({ x }) => x)),
  top: Math.max(...points.map(({ y }) => y)),
});

/** Round several boxes; at least one. */
export function unitedBox(boxes: readonly Box[]): Box {
  return boxes.reduce((a, b) => ({
    left: Math.min(a.left, b.left),
    bottom: Math.min(a.bottom, b.bottom),
    right: Math.max(a.right, b.right),
    top: Math.max(a.top, b.top),
  }));
}

export const pathBox = (path: readonly Segment[]): Box => unitedBox(path.map(segmentBox));
