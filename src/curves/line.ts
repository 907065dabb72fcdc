import type { Curve } from './curve.ts';
import { curveOf } from './curve-of.ts';
import { mustDiffer } from './must-differ.ts';
import type { Point } from './point.ts';

/**
 * A straight run.
 * @throws Fault `curve.same-point` when the ends coincide
 */
export function line(from: Point, to: Point): Curve {
  mustDiffer(from, to, 'the two ends of the line');
  return curveOf('line', [{ type: 'line', from, to }], { from, to }, []);
}
