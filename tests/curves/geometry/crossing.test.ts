import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chordsIntersect } from '../../../src/curves/geometry/flatten.ts';
import type { Segment } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point, point, sideOf } from '../../../src/curves/geometry/point.ts';
import { isPointInPath } from '../../../src/curves/geometry/point-in-path.ts';
import { PolylineBvh } from '../../../src/curves/geometry/polyline-bvh.ts';
import { polygon } from '../../../src/curves/geometry/transform.ts';

/** The spacing of doubles just above 1/2. */
const ULP = 2 ** -53;

/** The sign of the cross product in whole numbers, for coordinates that are whole multiples of ULP. */
function exactSide(a: Point, b: Point, p: Point): number {
  const whole = (value: number): bigint => BigInt(value / ULP);
  const [ax, ay] = [whole(a.x), whole(a.y)];
  const left = (whole(b.x) - ax) * (whole(p.y) - ay);
  const right = (whole(b.y) - ay) * (whole(p.x) - ax);
  return left > right ? 1 : left < right ? -1 : 0;
}

// The grid on which the plain formula errs: Kettner et al. 2008, "Classroom examples of robustness problems in
// geometric computations", Computational Geometry 40, figure 2.
test('property: the side of a point a few ulp off a line is that of exact arithmetic', () => {
  const [a, b] = [point(12, 12), point(24, 24)];
  const step = fc.integer({ min: 0, max: 255 });
  fc.assert(
    fc.property(step, step, (i, j) => {
      const p = point(0.5 + i * ULP, 0.5 + j * ULP);
      for (const [from, to, off] of [
        [a, b, p],
        [p, a, b],
        [b, p, a],
      ] as const)
        expect(Math.sign(sideOf(from, to, off)) === exactSide(from, to, off)).toBe(true);
    }),
    { numRuns: 1000 },
  );
});

test('a chord that ends an ulp short of a slanting one does not meet it, one that ends on it does', () => {
  const slanting = { from: point(0.5, 0.5), to: point(24, 24) };
  const downTo = (y: number) => ({ from: point(12, 20), to: point(12, y) });
  expect(chordsIntersect(slanting, downTo(12))).toBe(true);
  expect(chordsIntersect(slanting, downTo(12 + 2 ** -49))).toBe(false);
  const polyline = new PolylineBvh([{ type: 'line', ...slanting }]);
  const meets = (y: number) => polyline.firstIntersection(point(12, 20), point(12, y), () => true);
  expect(meets(12)).toEqual(point(12, 12));
  expect(meets(12 + 2 ** -49)).toBeUndefined();
});

test('parallel ways and ways on one line do not cross', () => {
  const polyline = new PolylineBvh([{ type: 'line', from: point(0, 0), to: point(10, 5) }]);
  for (const away of [0, 1])
    expect(polyline.firstIntersection(point(2, 1 + away), point(4, 2 + away), () => true)).toBeUndefined();
});

describe('a point in a closed path', () => {
  const centre = point(3, -2);
  const circle: Segment[] = [
    { type: 'arc', centre, radius: 100, start: 0.3, sweep: 4 },
    { type: 'arc', centre, radius: 100, start: 4.3, sweep: 2 * Math.PI - 4 },
  ];
  /** The sagitta of a chord of the longer arc: 100·(1 − cos(4/64)) mm. */
  const SAG_MM = 0.2;

  test('property: is in a circle if it is closer to the center than the radius', () => {
    const coordinate = fc.integer({ min: -150, max: 150 });
    fc.assert(
      fc.property(coordinate, coordinate, (x, y) => {
        const away = distance(point(x, y), centre);
        fc.pre(Math.abs(away - 100) > SAG_MM);
        expect(isPointInPath(circle, point(x, y))).toBe(away < 100);
      }),
    );
  });

  test.each([true, false])('counts a corner at its own level once, whichever way the path runs', (forth) => {
    const corners = [point(0, 5), point(5, 0), point(10, 5), point(5, 10)];
    const diamond = polygon(forth ? corners : corners.reverse());
    expect([-1, 1, 5, 9, 11].map((x) => isPointInPath(diamond, point(x, 5)))).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
  });
});
