import { Fault } from '../../units/fault.ts';
import type { Curve } from '../curve.ts';
import type { CubicSegment } from '../geometry/pieces/piece.ts';
import {
  add,
  angleDifference,
  angleFrom,
  direction,
  dot,
  leftNormal,
  type Point,
  scale,
  subtract,
} from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { makeCurve } from '../make-curve.ts';
import { solveTridiagonal, type TridiagonalRow } from '../numeric/linear-algebra.ts';
import { assertDistinct } from '../validate.ts';

/** An end without bending moment, or with its tangent held at an angle (radians, from the reference line). */
export type SplineEnd = 'natural' | { readonly held: number };

/** Steeper held ends (80° to the chord) have no sensible slope: tan 80° = 5.7. */
const MAX_END_ANGLE = (80 * Math.PI) / 180;

/**
 * The drafting cubic through points: heights over the run's own chord as a cubic spline of the station along
 * it, each span weighted by its length, so that unequal spacing does not make it overshoot. Ends are natural
 * (second derivative 0) or held. It is the strip's small-deflection limit and makes no claim beyond that.
 * Because it is taken over its chord, turning the points turns the curve with them.
 *
 * Every span is exactly one cubic Bézier. (de Boor, "A Practical Guide to Splines", ch. IV.)
 * @param points at least two, in order along the chord
 * @throws Fault `curve.same-point`, `curve.not-finite`, `spline.out-of-order`, `spline.too-steep`
 */
export function spline(points: readonly Point[], start: SplineEnd, end: SplineEnd): Curve {
  const [from, to] = [points[0]!, points.at(-1)!];
  assertDistinct(from, to, 'the two ends of the spline');
  points.slice(1).forEach((p, i) => {
    assertDistinct(points[i]!, p, 'two neighbouring points of the spline');
  });
  const chord = angleFrom(from, to);
  const along = direction(chord);
  const knots = points.map((p) => {
    const out = subtract(p, from);
    return { x: dot(out, along), y: dot(out, leftNormal(along)) };
  });
  assertAdvancing(knots, points);
  const slopes = knotSlopes(knots, endSlope(start, chord, from), endSlope(end, chord, to));
  const place = ({ x, y }: Point): Point => add(from, add(scale(along, x), scale(leftNormal(along), y)));
  const cubics = knots.slice(1).map((_, i): CubicSegment => {
    const [p, q] = [knots[i]!, knots[i + 1]!];
    const third = (q.x - p.x) / 3;
    const handles = [
      { x: p.x + third, y: p.y + third * slopes[i]! },
      { x: q.x - third, y: q.y - third * slopes[i + 1]! },
    ] as const;
    return { type: 'cubic', controls: [points[i]!, place(handles[0]), place(handles[1]), points[i + 1]!] };
  });
  return makeCurve('spline', cubics, { from, to }, points);
}

function assertAdvancing(knots: readonly Point[], points: readonly Point[]): void {
  for (let i = 1; i < knots.length; i++)
    if (knots[i]!.x - knots[i - 1]!.x < JOIN_MM)
      throw new Fault(
        'spline.out-of-order',
        (mm) =>
          `the spline’s point at station ${mm(points[i]!.x)} does not lie beyond the one before it along the chord. ` +
          'Give the points in order.',
      );
}

function endSlope(end: SplineEnd, chord: number, at: Point): number | undefined {
  if (end === 'natural') return undefined;
  const angle = angleDifference(chord, end.held);
  if (Math.abs(angle) > MAX_END_ANGLE)
    throw new Fault(
      'spline.too-steep',
      (mm) =>
        `the spline’s held end at station ${mm(at.x)} stands too steep to its chord. Let that end be natural.`,
    );
  return Math.tan(angle);
}

/** The slopes at the knots: continuous second derivatives inside, one condition at each end. */
function knotSlopes(knots: readonly Point[], first?: number, last?: number): number[] {
  const n = knots.length;
  const spans = knots.slice(1).map((q, i) => q.x - knots[i]!.x);
  const secants = knots.slice(1).map((q, i) => (q.y - knots[i]!.y) / spans[i]!);
  const rows = knots.map((_, i): TridiagonalRow => {
    if (i === 0) return first === undefined ? [0, 2, 1, 3 * secants[0]!] : [0, 1, 0, first];
    if (i === n - 1) return last === undefined ? [1, 2, 0, 3 * secants[n - 2]!] : [0, 1, 0, last];
    const [h0, h1] = [spans[i - 1]!, spans[i]!];
    return [h1, 2 * (h0 + h1), h0, 3 * (h1 * secants[i - 1]! + h0 * secants[i]!)];
  });
  return solveTridiagonal(rows);
}
