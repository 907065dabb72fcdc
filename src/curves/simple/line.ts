import { type Curve, makeCurve } from '../curve.ts';
import type { Point } from '../geometry/point.ts';
import { assertDistinct } from '../validate.ts';

/** A straight run. @throws Fault `curve.same-point` */
export function line(from: Point, to: Point): Curve {
  assertDistinct(from, to, 'the two ends of the line');
  return makeCurve({ kind: 'line', from, to, pins: [], exact: [{ type: 'line', from, to }] });
}
