import { Bezier } from 'bezier-js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { segmentBounds } from '../../../src/curves/geometry/bounds.ts';
import { closestPoint } from '../../../src/curves/geometry/closest-point.ts';
import { derivative, evaluate, pieceLength } from '../../../src/curves/geometry/evaluate.ts';
import type { CubicSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { subsegment } from '../../../src/curves/geometry/subcurve.ts';

declare module 'bezier-js' {
  /** Methods that its types leave out. */
  interface Bezier {
    dderivative(t: number): Point;
    curvature(t: number): { readonly k: number };
  }
}

/** Whole mm, up to a meter from the origin: their differences are exact, so both libraries see the same special cases. */
const coordinate = fc.integer({ min: -1000, max: 1000 });
const anyPoint = fc.record({ x: coordinate, y: coordinate });
const anyCubic: fc.Arbitrary<CubicSegment> = fc.record({
  type: fc.constant('cubic' as const),
  controls: fc.tuple(anyPoint, anyPoint, anyPoint, anyPoint),
});
const anyShare = fc.double({ min: 0, max: 1, noNaN: true });

/** The libraries add terms of 1000 mm in different orders: some ten roundings of 1e-13 mm. */
const ROUNDING_MM = 1e-11;
/** A derivative is 3 times a difference of controls. */
const DERIVATIVE_ROUNDING_MM = 3 * ROUNDING_MM;

const referenceOf = ({ controls }: CubicSegment): Bezier =>
  new Bezier(controls.map(({ x, y }) => ({ x, y })));

test('property: a point and its derivative are those of bezier-js', () => {
  fc.assert(
    fc.property(anyCubic, anyShare, (cubic, u) => {
      const [ours, reference] = [evaluate(cubic, u), referenceOf(cubic)];
      expect(distance(ours, reference.get(u))).toBeLessThan(ROUNDING_MM);
      expect(distance(derivative(ours), reference.derivative(u))).toBeLessThan(DERIVATIVE_ROUNDING_MM);
    }),
  );
});

/** Slower than this, mm per unit of u, a curve is so near a cusp that its direction is rounding. */
const MIN_SPEED_MM = 1;
/** The rounding of a derivative, at that speed against second derivatives of up to 24,000 mm. */
const CURVATURE_TOLERANCE = 24_000 * DERIVATIVE_ROUNDING_MM;

test('property: the curvature is that of bezier-js', () => {
  fc.assert(
    fc.property(anyCubic, anyShare, (cubic, u) => {
      const { curvature, speed } = evaluate(cubic, u);
      fc.pre(speed > MIN_SPEED_MM);
      const reference = referenceOf(cubic).curvature(u).k;
      const scale = Math.max(1, Math.abs(reference));
      expect(Math.abs(curvature - reference) / scale).toBeLessThan(CURVATURE_TOLERANCE);
    }),
  );
});

/** What `pieceLength` promises, 1e-10 of the control polygon, for the longest one: three diagonals of 2828 mm. */
const LENGTH_TOLERANCE_MM = 1e-6;
/** bezier-js measures a cubic by 24 points, millimeters off where it is sharp: it is halved until the halves agree. */
const HALVES_AGREE_MM = 1e-9;

function referenceLength(cubic: Bezier): number {
  const { left, right } = cubic.split(0.5);
  const halves = left.length() + right.length();
  if (Math.abs(halves - cubic.length()) < HALVES_AGREE_MM) return halves;
  return referenceLength(left) + referenceLength(right);
}

test('property: the length is that of bezier-js in short parts, at a cusp too', () => {
  fc.assert(
    fc.property(anyCubic, (cubic) => {
      const off = pieceLength(cubic) - referenceLength(referenceOf(cubic));
      expect(Math.abs(off)).toBeLessThan(LENGTH_TOLERANCE_MM);
    }),
    { numRuns: 1000 },
  );
});

test('a cusp of known length is measured to its promise', () => {
  // Neile's semicubical parabola: x = s², y = s³ for s from −1 to 1, in units of 100 mm.
  const cusp: CubicSegment = {
    type: 'cubic',
    controls: [
      { x: 100, y: -100 },
      { x: -100 / 3, y: 100 },
      { x: -100 / 3, y: -100 },
      { x: 100, y: 100 },
    ],
  };
  // Each arm is (13^(3/2) − 8)/27 long, from ∫ √(4s² + 9s⁴) ds.
  expect(pieceLength(cusp)).toBeCloseTo((200 * (13 ** 1.5 - 8)) / 27, 7);
});

/** A root's error moves an extreme by its square only; what is left is the rounding of the point. */
const BOUNDS_TOLERANCE_MM = ROUNDING_MM;

test('property: the bounds are those of bezier-js', () => {
  fc.assert(
    fc.property(anyCubic, (cubic) => {
      const { left, right, bottom, top } = segmentBounds(cubic);
      const { x, y } = referenceOf(cubic).bbox();
      const offs = [left - x.min, right - x.max, bottom - y.min, top - y.max];
      expect(Math.max(...offs.map(Math.abs))).toBeLessThan(BOUNDS_TOLERANCE_MM);
    }),
    { numRuns: 1000 },
  );
});

test('property: the part between two parameters has the controls of bezier-js', () => {
  fc.assert(
    fc.property(anyCubic, anyShare, anyShare, (cubic, a, b) => {
      const [from, to] = [Math.min(a, b), Math.max(a, b)];
      fc.pre(from < to);
      const part = subsegment(cubic, from, to) as CubicSegment;
      const reference = referenceOf(cubic).split(from, to).points;
      const offs = part.controls.map((control, i) => distance(control, reference[i] as Point));
      expect(Math.max(...offs)).toBeLessThan(ROUNDING_MM);
    }),
  );
});

const LOOKUP_STEPS = 500;
/** Newton steps that bring a projection, up to 1.5 mm off, to rounding; they double its digits. */
const POLISHING_STEPS = 8;

/** The projection of bezier-js, polished. Its own distance belongs to an end that it has run past. */
function referenceProjection(cubic: Bezier, to: Point): Point {
  let t = cubic.project(to).t ?? Number.NaN;
  for (let i = 0; i < POLISHING_STEPS; i++) {
    const [place, first, second] = [cubic.get(t), cubic.derivative(t), cubic.dderivative(t)];
    const [x, y] = [place.x - to.x, place.y - to.y];
    const slope = first.x ** 2 + first.y ** 2 + x * second.x + y * second.y;
    if (slope > 0) t = Math.min(1, Math.max(0, t - (x * first.x + y * first.y) / slope));
  }
  return cubic.get(t);
}

test('property: the closest point lies on the curve of bezier-js, which has none closer', () => {
  fc.assert(
    fc.property(anyCubic, anyPoint, (cubic, to) => {
      const reference = referenceOf(cubic);
      const { u, at, distance: found } = closestPoint([cubic], to);
      expect(distance(at, reference.get(u))).toBeLessThan(ROUNDING_MM);
      const candidates = [...reference.getLUT(LOOKUP_STEPS), referenceProjection(reference, to)];
      const least = Math.min(...candidates.map((place) => distance(place, to)));
      expect(found).toBeLessThan(least + ROUNDING_MM);
    }),
    { numRuns: 300 },
  );
});
