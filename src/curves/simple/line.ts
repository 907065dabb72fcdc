import type { Curve } from '../curve.ts';
import type { Point } from '../geometry/point.ts';
import { curveOf } from '../make-curve.ts';
import { mustDiffer } from '../validate.ts';

/**
 * A straight run.
 * @throws Fault `curve.same-point` when the ends coincide
 */
export function line(from: Point, to: Point): Curve {
  mustDiffer(from, to, 'the two ends of the line');
  return curveOf('line', [{ type: 'line', from, to }], { from, to }, []);
}
