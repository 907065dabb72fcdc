import { ChordFrame } from '../geometry/chord-frame.ts';
import type { TaperedSegment } from '../geometry/pieces/piece.ts';
import { add, dot, type Point, scale, subtract } from '../geometry/point.ts';

/** The strip's own units: chord 1 from the start along x, the bend upwards. */
export class UnitFrame extends ChordFrame {
  private readonly side: number;
  private readonly across: Point;

  constructor(from: Point, to: Point, bent: Point) {
    super(from, to);
    this.side = this.height(bent) < 0 ? -1 : 1;
    this.across = scale(this.normal, this.side);
  }

  toLocal(p: Point): Point {
    const out = scale(subtract(p, this.from), 1 / this.length);
    return { x: dot(out, this.along), y: dot(out, this.across) };
  }

  private rotated = ({ x, y }: Point): Point => add(scale(this.along, x), scale(this.across, y));
  toWorld = (p: Point): Point => add(this.from, scale(this.rotated(p), this.length));

  spanToWorld(span: TaperedSegment, thick: number): TaperedSegment {
    const { length: chord, side } = this;
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
