import { firstOf } from '../../units/checked.ts';
import { paramCurve, pieceEnd, pieceStart } from './evaluate.ts';
import type { ArcSegment, CubicSegment, Segment } from './pieces/piece.ts';
import { add, direction, type Point, point, scale } from './point.ts';

/** The smallest upright rectangle round something, mm. */
export interface Box {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

/** Exact, by the ends and the extremes. */
export function segmentBounds(segment: Segment): Box {
  switch (segment.type) {
    case 'line':
      return boundsOf([segment.from, segment.to]);
    case 'cubic':
      return cubicBounds(segment);
    case 'arc':
      return arcBounds(segment);
  }
}

function cubicBounds(cubic: CubicSegment): Box {
  const [p, q, r, s] = cubic.controls;
  const turns = [
    ...cubicExtrema(q.x - p.x, r.x - q.x, s.x - r.x),
    ...cubicExtrema(q.y - p.y, r.y - q.y, s.y - r.y),
  ];
  const at = paramCurve(cubic);
  return boundsOf([p, s, ...turns.map(at)]);
}

/** Roots in (0, 1) of a·(1−t)² + 2·b·t·(1−t) + c·t²; a leading term near 0 (a symmetric hump) loses no digits. */
function cubicExtrema(a: number, b: number, c: number): number[] {
  const [square, half] = [a - 2 * b + c, b - a];
  const root = Math.sqrt(half * half - square * a);
  const q = -(half + (half < 0 ? -root : root));
  return [q / square, a / q].filter((t) => t > 0 && t < 1);
}

function arcBounds(arc: ArcSegment): Box {
  const points: Point[] = [pieceStart(arc), pieceEnd(arc)];
  const [low, high] = [Math.min(0, arc.sweep) + arc.start, Math.max(0, arc.sweep) + arc.start];
  const quarter = Math.PI / 2;
  for (let k = Math.ceil(low / quarter); k * quarter <= high; k++)
    points.push(add(arc.centre, scale(direction(k * quarter), arc.radius)));
  return boundsOf(points);
}

/** @param points at least one */
export function boundsOf(points: readonly Point[]): Box {
  const { x, y } = firstOf(points);
  const box = { left: x, bottom: y, right: x, top: y };
  for (const point of points) {
    box.left = Math.min(box.left, point.x);
    box.bottom = Math.min(box.bottom, point.y);
    box.right = Math.max(box.right, point.x);
    box.top = Math.max(box.top, point.y);
  }
  return box;
}

export const union = (boxes: readonly Box[]): Box =>
  boundsOf(boxes.flatMap(({ left, bottom, right, top }) => [point(left, bottom), point(right, top)]));

export const pathBounds = (path: readonly Segment[]): Box => union(path.map(segmentBounds));

/** A box moved to the right and up. */
export const translateBox = ({ left, bottom, right, top }: Box, x: number, y: number): Box => ({
  left: left + x,
  right: right + x,
  bottom: bottom + y,
  top: top + y,
});

/** A box made larger on every side. */
export const inflate = ({ left, bottom, right, top }: Box, by: number): Box => ({
  left: left - by,
  bottom: bottom - by,
  right: right + by,
  top: top + by,
});

/** The square that extends from a point by `reach` to each side. */
export const squareAround = (at: Point, reach: number): Box => inflate(boundsOf([at]), reach);

/** Whether two boxes share more than a side. */
export const boxesOverlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
