import fc from 'fast-check';
import { expect, test } from 'vitest';
import { segmentBounds } from '../../../src/curves/geometry/bounds.ts';
import { evaluate } from '../../../src/curves/geometry/evaluate.ts';
import type { CubicSegment } from '../../../src/curves/geometry/pieces/piece.ts';

const coordinate = fc.oneof(
  fc.double({ min: -1000, max: 1000, noNaN: true, noDefaultInfinity: true }),
  // Near symmetry the derivative loses its square term.
  fc.constantFrom(0, 1e-14, 100, 100 + 1e-12),
);
const anyPoint = fc.record({ x: coordinate, y: coordinate });
const anyCubic: fc.Arbitrary<CubicSegment> = fc.record({
  type: fc.constant('cubic' as const),
  controls: fc.tuple(anyPoint, anyPoint, anyPoint, anyPoint),
});

test('the box of a symmetric hump reaches its top, though its end is a rounding error off', () => {
  const hump: CubicSegment = {
    type: 'cubic',
    controls: [
      { x: 0, y: 0 },
      { x: 20, y: 100 },
      { x: 40, y: 100 },
      { x: 60, y: 2.8e-14 },
    ],
  };
  // y(1/2) = 3/4 of the controls' height.
  expect(segmentBounds(hump).top).toBeCloseTo(75, 9);
});

test('property: every point of a cubic is in its box', () => {
  fc.assert(
    fc.property(anyCubic, fc.double({ min: 0, max: 1, noNaN: true }), (cubic, u) => {
      const { left, right, bottom, top } = segmentBounds(cubic);
      const { x, y } = evaluate(cubic, u);
      // 1e-9: rounding of coordinates of a metre.
      expect(x).toBeGreaterThanOrEqual(left - 1e-9);
      expect(x).toBeLessThanOrEqual(right + 1e-9);
      expect(y).toBeGreaterThanOrEqual(bottom - 1e-9);
      expect(y).toBeLessThanOrEqual(top + 1e-9);
    }),
    { numRuns: 500 },
  );
});
