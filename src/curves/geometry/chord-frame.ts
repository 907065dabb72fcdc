import type { Point } from './point.ts';
import { add, angleFrom, direction, distance, dot, leftNormal, scale, subtract } from './point.ts';

/** The coordinates of a chord, mm: stations along it from its start, heights square off it to the left. */
export class ChordFrame {
  readonly length: number;
  readonly angle: number;
  readonly along: Point;
  readonly normal: Point;

  constructor(
    readonly from: Point,
    to: Point,
  ) {
    this.length = distance(from, to);
    this.angle = angleFrom(from, to);
    this.along = direction(this.angle);
    this.normal = leftNormal(this.along);
  }

  station = (p: Point): number => dot(subtract(p, this.from), this.along);
  height = (p: Point): number => dot(subtract(p, this.from), this.normal);
  place = ({ x, y }: Point): Point => add(this.from, add(scale(this.along, x), scale(this.normal, y)));
}
