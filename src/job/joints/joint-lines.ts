import type { LineSegment } from '../../curves/geometry/pieces/piece.ts';
import { add, direction, type Point, point, scale } from '../../curves/geometry/point.ts';
import type { JointLine } from './joint-kind.ts';

/** A cross extends this far past a hole or a slot, mm, so that an awl finds the middle again. */
export const CROSS_PAST_MM = 4;

const HEAD_MM = 2;

/** A cross of two lines, `arm` mm to each side, turned by `turn` radians. */
export const cross = (style: JointLine['style'], at: Point, arm: number, turn: number): JointLine[] =>
  [direction(turn), direction(turn + Math.PI / 2)].map((way) => ({
    style,
    path: [lineBetween(add(at, scale(way, -arm)), add(at, scale(way, arm)))],
  }));

/** An arrow from a point along a unit vector, `reach` mm long. */
export function arrow(at: Point, way: Point, reach: number): JointLine[] {
  const tip = add(at, scale(way, reach));
  const barb = (side: 1 | -1): Point =>
    add(tip, add(scale(way, -HEAD_MM), scale(point(-way.y, way.x), (side * HEAD_MM) / 2)));
  return [
    { style: 'mark', path: [lineBetween(at, tip)] },
    { style: 'mark', path: [lineBetween(barb(1), tip), lineBetween(tip, barb(-1))] },
  ];
}

const lineBetween = (from: Point, to: Point): LineSegment => ({ type: 'line', from, to });
