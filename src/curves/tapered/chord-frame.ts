import type { TaperedSegment } from '../geometry/pieces/piece.ts';
import {
  add,
  angleFrom,
  cross,
  direction,
  distance,
  dot,
  leftNormal,
  type Point,
  scale,
  subtract,
} from '../geometry/point.ts';

/** The strip's own units: chord 1 from the start along x, the bend upwards. */
export class ChordFrame {
  private readonly angle: number;
  private readonly chord: number;
  private readonly side: number;
  private readonly along: Point;
  private readonly across: Point;

  constructor(
    private readonly from: Point,
    to: Point,
    bent: Point,
  ) {
    this.angle = angleFrom(from, to);
    this.chord = distance(from, to);
    this.along = direction(this.angle);
    this.side = cross(this.along, subtract(bent, from)) < 0 ? -1 : 1;
    this.across = scale(leftNormal(this.along), this.side);
  }

  toLocal(p: Point): Point {
    const out = scale(subtract(p, this.from), 1 / this.chord);
    return { x: dot(out, this.along), y: dot(out, this.across) };
  }

  private rotated = ({ x, y }: Point): Point => add(scale(this.along, x), scale(this.across, y));
  toWorld = (p: Point): Point => add(this.from, scale(this.rotated(p), this.chord));
  heightMm = ({ y }: Point): number => y * this.chord;

  spanToWorld(span: TaperedSegment, thick: number): TaperedSegment {
    const { chord, side } = this;
    const stiff = thick ** 3;
    return {
      type: 'tapered',
      from: this.toWorld(span.from),
      angle: this.angle + side * span.angle,
      moment: (side * span.moment * stiff) / chord,
      force: scale(this.rotated(span.force), stiff / chord ** 2),
      thickness: [span.thickness[0] * thick, span.thickness[1] * thick],
      length: span.length * chord,
    };
  }
}
