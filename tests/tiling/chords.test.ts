import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pointAt } from '../../src/curves/along.ts';
import type { Segment } from '../../src/curves/piece.ts';
import { point } from '../../src/curves/point.ts';
import { CHORD_MM, chordsOf, passes } from '../../src/tiling/chords.ts';

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
      const { x, y } = pointAt(curve, u);
      const nearest = Math.min(
        ...chordsOf([curve]).map(({ from, to }) => {
          const [dx, dy] = [to.x - from.x, to.y - from.y];
          const t = Math.min(
            1,
            Math.max(0, ((x - from.x) * dx + (y - from.y) * dy) / (dx * dx + dy * dy || 1)),
          );
          return Math.hypot(from.x + dx * t - x, from.y + dy * t - y);
        }),
      );
      // 1e-9: the rounding of coordinates of a few metres.
      expect(nearest).toBeLessThanOrEqual(CHORD_MM + 1e-9);
    }),
    { numRuns: 300 },
  );
});

test('property: a box round any point of a curve holds the curve', () => {
  const size = fc.double({ min: 1e-6, max: 100, noNaN: true });
  fc.assert(
    fc.property(segment, fc.double({ min: 0, max: 1, noNaN: true }), size, (curve, u, reach) => {
      const { x, y } = pointAt(curve, u);
      const box = { left: x - reach, right: x + reach, bottom: y - reach, top: y + reach };
      expect(chordsOf([curve]).some((chord) => passes(chord, box))).toBe(true);
    }),
    { numRuns: 300 },
  );
});

test('a slanting line past a box corner does not pass through the box, though its own box does', () => {
  const chord = { from: point(0, 11), to: point(11, 0) };
  expect(passes(chord, { left: 0, bottom: 0, right: 5, top: 5 })).toBe(false);
  expect(passes(chord, { left: 0, bottom: 0, right: 6, top: 6 })).toBe(true);
});

test('an upright line beside a box does not pass through it, one inside does', () => {
  const box = { left: 0, bottom: 0, right: 10, top: 10 };
  expect(passes({ from: point(11, -5), to: point(11, 20) }, box)).toBe(false);
  expect(passes({ from: point(5, 4), to: point(5, 6) }, box)).toBe(true);
});
