import fc from 'fast-check';
import { expect, test } from 'vitest';
import { closestPoint } from '../../../src/curves/geometry/closest-point.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { distance, point } from '../../../src/curves/geometry/point.ts';

const within = (max: number) => fc.double({ min: -max, max, noNaN: true });

test('property: from a point to half a circle and the line that closes it is as far as geometry says', () => {
  const centre = point(0, 0);
  const pieces = [
    paramCurve({ type: 'arc', centre, radius: 100, start: 0, sweep: Math.PI }),
    paramCurve({ type: 'line', from: point(-100, 0), to: point(100, 0) }),
  ];
  fc.assert(
    fc.property(within(99), fc.double({ min: 0, max: 300, noNaN: true }), (x, y) => {
      const to = point(x, y);
      const { at, far } = closestPoint(pieces, to);
      expect(far).toBeCloseTo(Math.min(Math.abs(100 - distance(to, centre)), y), 5);
      expect(distance(at, to)).toBe(far);
    }),
  );
});
