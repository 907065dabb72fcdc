import { Fault } from '../../units/fault.ts';
import { type Curve, makeCurve } from '../curve.ts';
import type { Piece } from '../geometry/pieces/piece.ts';
import type { Point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { assertDistinct } from '../validate.ts';

/**
 * Half an ellipse on its chord, as on an arched rail: it leaves the chord square at both ends. A positive rise bulges
 * to the left from start to end. A rise of half the chord gives the half circle, under JOIN_MM the straight line.
 * @throws Fault `curve.same-point`, `curve.not-finite`
 */
export function ellipse(from: Point, to: Point, rise: number): Curve {
  assertDistinct(from, to, 'the two ends of the ellipse');
  if (!Number.isFinite(rise))
    throw new Fault('curve.not-finite', 'the ellipse: its rise is not a finite number. Give a plain length.');
  const piece: Piece =
    Math.abs(rise) < JOIN_MM ? { type: 'line', from, to } : { type: 'ellipse', from, to, rise };
  return makeCurve({ kind: 'ellipse', from, to, pins: [], exact: [piece] });
}
