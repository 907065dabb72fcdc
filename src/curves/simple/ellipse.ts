import { Fault } from '../../units/fault.ts';
import type { Curve } from '../curve.ts';
import type { Point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { makeCurve } from '../make-curve.ts';
import { assertDistinct } from '../validate.ts';

/**
 * Half an ellipse standing on its chord, as on an arched rail: it leaves the chord square at both ends.
 * Exact. A positive rise bulges to the left from start to end; a rise of half the chord gives the half
 * circle; under JOIN_MM the straight line.
 * @throws Fault `curve.same-point`, `curve.not-finite`
 */
export function ellipse(from: Point, to: Point, rise: number): Curve {
  assertDistinct(from, to, 'the two ends of the ellipse');
  if (!Number.isFinite(rise))
    throw new Fault('curve.not-finite', 'the ellipse: its rise is not a finite number. Give a plain length.');
  const flat = Math.abs(rise) < JOIN_MM;
  const piece = flat ? ({ type: 'line', from, to } as const) : ({ type: 'ellipse', from, to, rise } as const);
  return makeCurve('ellipse', [piece], { from, to }, []);
}
