import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bow } from '../../../src/curves/elastica/bow.ts';
import { closestPoint } from '../../../src/curves/geometry/closest-point.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point, point } from '../../../src/curves/geometry/point.ts';
import { PolylineBvh } from '../../../src/curves/geometry/polyline-bvh.ts';
import { ellipse } from '../../../src/curves/simple/ellipse.ts';
import { spline } from '../../../src/curves/simple/spline.ts';

const num = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const place = (x: number, y: number) => fc.record({ x: num(-x, 1000 + x), y: num(-y, y) });

/** The least distance of a piece by many samples: at most half a step of the curve too large. */
function sampledDistance(pieces: readonly Piece[], to: Point): { least: number; halfStep: number } {
  const COUNT = 4000;
  let [least, halfStep] = [Number.POSITIVE_INFINITY, 0];
  for (const at of pieces.map(paramCurve))
    for (let i = 0; i <= COUNT; i++) {
      const sample = at(i / COUNT);
      least = Math.min(least, distance(sample, to));
      halfStep = Math.max(halfStep, sample.speed / COUNT / 2);
    }
  return { least, halfStep };
}

test('property: half a circle and its chord are as far from a point as geometry says', () => {
  const centre = point(0, 0);
  const pieces: Piece[] = [
    { type: 'arc', centre, radius: 100, start: 0, sweep: Math.PI },
    { type: 'line', from: point(-100, 0), to: point(100, 0) },
  ];
  fc.assert(
    fc.property(num(-99, 99), num(0, 300), (x, y) => {
      const to = point(x, y);
      const { at, distance: found } = closestPoint(pieces, to);
      expect(found).toBeCloseTo(Math.min(Math.abs(100 - distance(to, centre)), y), 9);
      expect(distance(at, to)).toBe(found);
    }),
  );
});

describe('property: no sample of a curve is closer than the closest point, and it is found with or without a bound', () => {
  const ends = [point(0, 0), point(1000, 0)] as const;
  test.each<[string, readonly Piece[]]>([
    ['a deep bow', bow(...ends, 600).exact],
    ['a flat half ellipse', ellipse(...ends, 0.01).exact],
    ['a high half ellipse', ellipse(...ends, 900).exact],
    [
      'a wavy spline',
      spline(
        [0, 90, -70, 20, 0].map((y, i) => point(250 * i, y)),
        'natural',
        'natural',
      ).exact,
    ],
  ])('%s', (_, pieces) => {
    const polyline = new PolylineBvh(pieces);
    fc.assert(
      fc.property(place(300, 700), (to) => {
        const { least, halfStep } = sampledDistance(pieces, to);
        const found = closestPoint(pieces, to);
        expect(found.distance).toBeLessThanOrEqual(least + 1e-9);
        expect(found.distance).toBeGreaterThanOrEqual(least - halfStep);
        expect(polyline.closestPoint(to).distance).toBeCloseTo(found.distance, 9);
        expect(polyline.closestPoint(to, found.distance).distance).toBeCloseTo(found.distance, 9);
      }),
      { numRuns: 60 },
    );
  });
});

test('a bound that is too small still finds the closest point', () => {
  const polyline = new PolylineBvh([{ type: 'line', from: point(0, 0), to: point(10, 0) }]);
  expect(polyline.closestPoint(point(4, 3), 1)).toMatchObject({ piece: 0, u: 0.4, distance: 3 });
});
