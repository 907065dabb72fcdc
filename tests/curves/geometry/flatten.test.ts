import fc from 'fast-check';
import { expect, test } from 'vitest';
import { evaluate, paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import {
  chordsIntersect,
  closestPointOnChord,
  FLATTEN_MM,
  flatten,
  segmentIntersectsBox,
} from '../../../src/curves/geometry/flatten.ts';
import type { Segment } from '../../../src/curves/geometry/pieces/piece.ts';
import { cross, distance, point, subtract } from '../../../src/curves/geometry/point.ts';

const ARC: Segment = { type: 'arc', centre: point(3, -900), radius: 950, start: 2, sweep: -0.9 };
const CUBIC: Segment = {
  type: 'cubic',
  controls: [point(0, 0), point(50, 300), point(250, -300), point(400, 10)],
};

test.each([
  ['arc', ARC],
  ['cubic', CUBIC],
])('the chords of an %s keep within their tolerance, and no closer than it takes', (_, segment) => {
  for (const tolerance of [1, 0.1, 0.005]) {
    const chords = flatten([segment], tolerance);
    const count = chords.length;
    const at = paramCurve(segment);
    let worst = 0;
    for (let i = 0; i < count; i++) {
      const { from, to } = chords[i]!;
      for (let k = 0; k <= 10; k++) {
        const p = at((i + k / 10) / count);
        worst = Math.max(worst, Math.abs(cross(subtract(to, from), subtract(p, from))) / distance(from, to));
      }
    }
    expect(worst).toBeLessThanOrEqual(tolerance * (1 + 1e-9));
    expect(worst).toBeGreaterThan(tolerance / 10);
  }
});

test('a straight line is one chord', () => {
  const path: Segment[] = [
    { type: 'line', from: point(0, 0), to: point(5, 1) },
    { type: 'line', from: point(5, 1), to: point(7, 9) },
  ];
  expect(flatten(path, 0.01)).toEqual([
    { from: point(0, 0), to: point(5, 1) },
    { from: point(5, 1), to: point(7, 9) },
  ]);
});

const coordinate = fc.double({ min: -2000, max: 2000, noNaN: true, noDefaultInfinity: true });
const anyPoint = fc.record({ x: coordinate, y: coordinate });

const segment: fc.Arbitrary<Segment> = fc.oneof(
  fc.record({ type: fc.constant('line' as const), from: anyPoint, to: anyPoint }),
  fc.record({
    type: fc.constant('arc' as const),
    centre: anyPoint,
    radius: fc.double({ min: 1, max: 5000, noNaN: true }),
    start: fc.double({ min: -4, max: 4, noNaN: true }),
    sweep: fc.double({ min: 0.01, max: 6, noNaN: true }),
  }),
  fc.record({
    type: fc.constant('cubic' as const),
    controls: fc.tuple(anyPoint, anyPoint, anyPoint, anyPoint),
  }),
);

test('property: every point of a curve lies within CHORD_MM of one of its chords', () => {
  fc.assert(
    fc.property(segment, fc.double({ min: 0, max: 1, noNaN: true }), (curve, u) => {
      const { x, y } = evaluate(curve, u);
      const nearest = Math.min(
        ...flatten([curve]).map(({ from, to }) => {
          const [dx, dy] = [to.x - from.x, to.y - from.y];
          const t = Math.min(
            1,
            Math.max(0, ((x - from.x) * dx + (y - from.y) * dy) / (dx * dx + dy * dy || 1)),
          );
          return Math.hypot(from.x + dx * t - x, from.y + dy * t - y);
        }),
      );
      // 1e-9: the rounding of coordinates of a few metres.
      expect(nearest).toBeLessThanOrEqual(FLATTEN_MM + 1e-9);
    }),
    { numRuns: 300 },
  );
});

test('property: a box round any point of a curve holds the curve', () => {
  const size = fc.double({ min: 1e-6, max: 100, noNaN: true });
  fc.assert(
    fc.property(segment, fc.double({ min: 0, max: 1, noNaN: true }), size, (curve, u, reach) => {
      const { x, y } = evaluate(curve, u);
      const box = { left: x - reach, right: x + reach, bottom: y - reach, top: y + reach };
      expect(flatten([curve]).some((chord) => segmentIntersectsBox(chord, box))).toBe(true);
    }),
    { numRuns: 300 },
  );
});

test('a slanting line past a box corner does not pass through the box, though its own box does', () => {
  const chord = { from: point(0, 11), to: point(11, 0) };
  expect(segmentIntersectsBox(chord, { left: 0, bottom: 0, right: 5, top: 5 })).toBe(false);
  expect(segmentIntersectsBox(chord, { left: 0, bottom: 0, right: 6, top: 6 })).toBe(true);
});

test('a vertical line beside a box does not cross it, one inside does', () => {
  const box = { left: 0, bottom: 0, right: 10, top: 10 };
  expect(segmentIntersectsBox({ from: point(11, -5), to: point(11, 20) }, box)).toBe(false);
  expect(segmentIntersectsBox({ from: point(5, 4), to: point(5, 6) }, box)).toBe(true);
});

const places = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }));
const place = places.map(([x, y]) => point(x, y));

test('property: closest point of a chord is the closest of all, also for a chord of length 0', () => {
  fc.assert(
    fc.property(place, place, place, (from, to, at) => {
      const told = distance(closestPointOnChord({ from, to }, at), at);
      const all = Array.from({ length: 101 }, (_, i) =>
        distance(point(from.x + ((to.x - from.x) * i) / 100, from.y + ((to.y - from.y) * i) / 100), at),
      );
      const least = Math.min(...all);
      expect(told).toBeLessThanOrEqual(least + 1e-9);
      // Between two of the hundred the way is a hundredth of the chord.
      expect(told).toBeGreaterThanOrEqual(least - distance(from, to) / 100);
    }),
  );
});

test('chords cross, touch at an end, and keep apart', () => {
  const flat = { from: point(0, 0), to: point(10, 0) };
  const upright = (x: number, low: number, high: number) => ({ from: point(x, low), to: point(x, high) });
  expect(chordsIntersect(flat, upright(5, -1, 1))).toBe(true);
  expect(chordsIntersect(flat, upright(5, 0, 1))).toBe(true);
  expect(chordsIntersect(flat, upright(10, -1, 0))).toBe(true);
  expect(chordsIntersect(flat, upright(5, 0.1, 1))).toBe(false);
  expect(chordsIntersect(flat, upright(10.1, -1, 1))).toBe(false);
});
