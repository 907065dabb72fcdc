import { firstOf, itemAt, lastOf, neighbors } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { type Curve, makeCurve } from '../curve.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import type { CubicSegment } from '../geometry/pieces/piece.ts';
import { angleDifference, type Point, point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { solveTridiagonal, type TridiagonalRow } from '../numeric/linear-algebra.ts';
import { assertDistinct } from '../validate.ts';

/** An end without bending moment, or with its tangent held at an angle (radians, from the reference line). */
export type SplineEnd = 'natural' | { readonly held: number };

/** Steeper held ends (80° to the chord) have no sensible slope: tan 80° = 5.7. */
const MAX_END_ANGLE = (80 * Math.PI) / 180;

/**
 * The drafting cubic, the batten's limit for small deflections: heights over the chord, each span weighted by its
 * length, so that unequal spacing does not make it overshoot (de Boor, "A Practical Guide to Splines", ch. IV).
 * @throws Fault `curve.same-point`, `curve.not-finite`, `spline.out-of-order`, `spline.too-steep`
 */
export function spline(points: readonly Point[], start: SplineEnd, end: SplineEnd): Curve {
  assertDistinct(points[0], points.at(-1), 'the two ends of the spline');
  const spans = neighbors(points);
  for (const [p, q] of spans) assertDistinct(p, q, 'two neighboring points of the spline');
  const [from, to] = [firstOf(points), lastOf(points)];
  const frame = new ChordFrame(from, to);
  const knots = points.map((p) => point(frame.station(p), frame.height(p)));
  assertAdvancing(knots, points);
  const slopes = knotSlopes(knots, endSlope(start, frame.angle, from), endSlope(end, frame.angle, to));
  const cubics = spans.map(([a, b], i): CubicSegment => {
    const [p, q] = [itemAt(knots, i), itemAt(knots, i + 1)];
    const third = (q.x - p.x) / 3;
    const leaving = frame.place({ x: p.x + third, y: p.y + third * itemAt(slopes, i) });
    const arriving = frame.place({ x: q.x - third, y: q.y - third * itemAt(slopes, i + 1) });
    return { type: 'cubic', controls: [a, leaving, arriving, b] };
  });
  return makeCurve({ kind: 'spline', from, to, pins: points, exact: cubics });
}

function assertAdvancing(knots: readonly Point[], points: readonly Point[]): void {
  const back = neighbors(knots).findIndex(([p, q]) => q.x - p.x < JOIN_MM);
  if (back >= 0)
    throw new Fault(
      'spline.out-of-order',
      (mm) =>
        `the point at station ${mm(itemAt(points, back + 1).x)} is not past the point before it along the chord. ` +
        'Give the points in order, from left to right.',
    );
}

function endSlope(end: SplineEnd, chord: number, at: Point): number | undefined {
  if (end === 'natural') return undefined;
  const angle = angleDifference(chord, end.held);
  if (Math.abs(angle) > MAX_END_ANGLE)
    throw new Fault(
      'spline.too-steep',
      (mm) => `the held end at station ${mm(at.x)} is too steep for a spline. Make this end natural.`,
    );
  return Math.tan(angle);
}

function knotSlopes(knots: readonly Point[], first?: number, last?: number): number[] {
  const spans = neighbors(knots).map(([p, q]) => ({ width: q.x - p.x, secant: (q.y - p.y) / (q.x - p.x) }));
  const inner = neighbors(spans).map(([before, after]): TridiagonalRow => {
    const slope = 3 * (after.width * before.secant + before.width * after.secant);
    return [after.width, 2 * (before.width + after.width), before.width, slope];
  });
  return solveTridiagonal([
    first === undefined ? [0, 2, 1, 3 * firstOf(spans).secant] : [0, 1, 0, first],
    ...inner,
    last === undefined ? [1, 2, 0, 3 * lastOf(spans).secant] : [0, 1, 0, last],
  ]);
}
