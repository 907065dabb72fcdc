import { Fault } from '../../units/fault.ts';
import { type Curve, makeCurve } from '../curve.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import type { Piece } from '../geometry/pieces/piece.ts';
import { add, angleFrom, distance, lerp, type Point, scale, turnBetween } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { assertDistinct } from '../validate.ts';

export type ArcBy = { readonly through: Point } | { readonly rise: number } | { readonly radius: number };

/**
 * A positive rise or radius (mm) bulges to the left; by radius the lesser arc is taken, and under JOIN_MM of rise a
 * line. Radius = chord²/(8·rise) + rise/2 (intersecting chords, Euclid III.35).
 * @throws Fault `curve.same-point`, `curve.not-finite`, `arc.radius-too-small`, `arc.out-of-order`
 */
export function arc(from: Point, to: Point, by: ArcBy): Curve {
  assertDistinct(from, to, 'the two ends of the arc');
  const rise = riseOf(from, to, by);
  if (!Number.isFinite(rise))
    throw new Fault('curve.not-finite', 'a length of the arc is not a finite number. Use plain lengths.');
  return makeCurve({ kind: 'arc', from, to, pins: [], exact: [arcByRise(from, to, rise)] });
}

function arcByRise(from: Point, to: Point, rise: number): Piece {
  if (Math.abs(rise) < JOIN_MM) return { type: 'line', from, to };
  const { length: chord, normal } = new ChordFrame(from, to);
  const radius = chord ** 2 / (8 * Math.abs(rise)) + Math.abs(rise) / 2;
  const centre = add(lerp(from, to, 0.5), scale(normal, rise - Math.sign(rise) * radius));
  // Half the sweep has tan(sweep/4) = rise ÷ half chord; a bulge to the left runs clockwise.
  const sweep = -4 * Math.atan((2 * rise) / chord);
  return { type: 'arc', centre, radius, start: angleFrom(centre, from), sweep };
}

function riseOf(from: Point, to: Point, by: ArcBy): number {
  if ('rise' in by) return by.rise;
  if ('through' in by) return riseThrough(from, to, by.through);
  const chord = distance(from, to);
  const radius = Math.abs(by.radius);
  if (radius < chord / 2)
    throw new Fault(
      'arc.radius-too-small',
      (mm) =>
        `a radius of ${mm(radius)} is too small for a chord of ${mm(chord)}. Use a radius of ${mm(chord / 2)} or more.`,
    );
  // The sagitta without the difference of two large numbers, so that flat arcs keep their digits.
  return (Math.sign(by.radius) * chord ** 2) / 4 / (radius + Math.sqrt(radius ** 2 - chord ** 2 / 4));
}

/** The point sees the chord under an angle; half its supplement is the angle chord–end–apex. */
function riseThrough(from: Point, to: Point, through: Point): number {
  assertDistinct(from, through, 'the start of the arc and the point it passes through');
  assertDistinct(through, to, 'the point the arc passes through and its end');
  const turn = turnBetween(from, through, to);
  if (Math.abs(turn) > Math.PI - 1e-9)
    throw new Fault(
      'arc.out-of-order',
      (mm) =>
        `the point at station ${mm(through.x)} is in line with the chord but not between its ends. Choose a point between them.`,
    );
  return (-distance(from, to) / 2) * Math.tan(turn / 2);
}
