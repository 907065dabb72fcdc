import type { Curve } from '../curve.ts';
import type { Point } from '../geometry/point.ts';
import { makeCurve } from '../make-curve.ts';
import { assertDistinct } from '../validate.ts';

/** A straight run. @throws Fault `curve.same-point` if the ends coincide */
export function line(from: Point, to: Point): Curve {
  assertDistinct(from, to, 'the two ends of the line');
  return makeCurve('line', [{ type: 'line', from, to }], { from, to }, []);
}
