import { Fault } from '../../units/fault.ts';
import { type Curve, makeCurve } from '../curve.ts';
import type { Piece } from '../geometry/pieces/piece.ts';
import type { Point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { assertDistinct } from '../validate.ts';

/**
 * Half an ellipse, square to its chord at both ends; a positive rise bulges to the left, under JOIN_MM it is a line.
 * @throws Fault `curve.same-point`, `curve.not-finite`
 */
export function ellipse(from: Point, to: Point, rise: number): Curve {
  assertDistinct(from, to, 'the two ends of the ellipse');
  if (!Number.isFinite(rise))
    throw new Fault(
      'curve.not-finite',
      'the rise of the ellipse is not a finite number. Use a plain length.',
    );
  const piece: Piece =
    Math.abs(rise) < JOIN_MM ? { type: 'line', from, to } : { type: 'ellipse', from, to, rise };
  return makeCurve({ kind: 'ellipse', from, to, pins: [], exact: [piece] });
}
