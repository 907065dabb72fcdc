import fc from 'fast-check';
import odex from 'odex';
import { describe, expect, test } from 'vitest';
import type { Curve } from '../../../src/curves/curve.ts';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { bow } from '../../../src/curves/elastica/bow.ts';
import { paramCurve, piecesLength } from '../../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance, point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { sharpen } from '../../../src/curves/offset/overbend.ts';
import { arc } from '../../../src/curves/simple/arc.ts';
import { ellipse } from '../../../src/curves/simple/ellipse.ts';
import { line } from '../../../src/curves/simple/line.ts';
import { spline } from '../../../src/curves/simple/spline.ts';

const [from, to] = [point(0, 0), point(600, 40)];
const free = { start: 'free', end: 'free' } as const;

/** The sharpened line's end by an extrapolation solver for ordinary differential equations, piece by piece. */
function endByOde(pieces: readonly Piece[], factor: number): number[] {
  let state = [paramCurve(pieces[0]!)(0).x, paramCurve(pieces[0]!)(0).y, paramCurve(pieces[0]!)(0).angle];
  for (const piece of pieces) {
    const at = paramCurve(piece);
    const solver = new odex.Solver(3);
    solver.absoluteTolerance = 1e-11;
    solver.relativeTolerance = 1e-11;
    const slope = (u: number, [, , angle]: readonly number[]): number[] => {
      const { speed, curvature } = at(Math.min(1, Math.max(0, u)));
      return [Math.cos(angle!) * speed, Math.sin(angle!) * speed, factor * curvature * speed];
    };
    state = [...solver.solve(slope, 0, state, 1).y];
  }
  return state;
}

const CURVES: readonly [name: string, curve: () => Curve][] = [
  ['a batten over a nail off the middle', () => batten(from, to, { through: [point(220, 90)] }, free)],
  ['a batten over two nails', () => batten(from, to, { through: [point(150, 70), point(420, 20)] }, free)],
  ['a bow', () => bow(from, to, 120)],
  ['half an ellipse', () => ellipse(from, to, 90)],
  ['a spline', () => spline([from, point(200, 60), point(380, -10), to], 'natural', 'natural')],
];

describe('a line with its curvature raised', () => {
  test.each(CURVES)('ends where an independent solver ends: %s', (_name, make) => {
    const { exact } = make();
    for (const factor of [64 / 63, 16 / 15, 4 / 3]) {
      const path = sharpen(exact, factor).flat();
      const end = paramCurve(path.at(-1)!)(1);
      const [x, y, angle] = endByOde(exact, factor);
      expect(distance(end, point(x!, y!))).toBeLessThan(1e-6);
      expect(Math.abs(Math.sin((end.angle - angle!) / 2))).toBeLessThan(1e-7);
    }
  });

  test.each(CURVES)('is as long as before, the fit and all: %s', (_name, make) => {
    const { exact } = make();
    const grown = piecesLength(sharpen(exact, 9 / 8).flat()) - piecesLength(exact);
    expect(Math.abs(grown)).toBeLessThan(FIT_MM);
  });

  test.each(CURVES)('with a factor of 1 is the line itself: %s', (_name, make) => {
    const { exact } = make();
    sharpen(exact, 1).forEach((path, i) => {
      const places = Array.from({ length: 401 }, (_, k) => paramCurve(exact[i]!)(k / 400));
      for (const segment of path)
        for (const u of [0, 0.3, 0.7, 1]) {
          const at = paramCurve(segment)(u);
          const nearest = Math.min(...places.slice(1).map((b, k) => chordDistance(places[k]!, b, at)));
          // A chord of a four-hundredth of a 600 mm run of radius 150 mm and more lies 0.002 mm off it.
          expect(nearest).toBeLessThan(FIT_MM + 0.004);
        }
    });
  });

  test('of an arc is an arc of radius R(1 − 1/n²), as long as before', () => {
    const { exact } = arc(point(0, 0), point(600, 0), { rise: 75 }); // R = 637.5 (Euclid III.35)
    for (const n of [2, 3, 8]) {
      const [[segment]] = sharpen(exact, n ** 2 / (n ** 2 - 1)) as [[Piece]];
      expect(segment).toMatchObject({ type: 'arc' });
      if (segment.type === 'arc') expect(segment.radius).toBeCloseTo(637.5 * (1 - 1 / n ** 2), 9);
      expect(piecesLength([segment])).toBeCloseTo(piecesLength(exact), 9);
    }
  });

  test('a straight line stays straight', () => {
    expect(sharpen(line(point(3, 4), point(600, 40)).exact, 4 / 3)).toEqual([
      [{ type: 'line', from: { x: 3, y: 4 }, to: expect.objectContaining({ x: expect.closeTo(600, 9) }) }],
    ]);
  });

  test('a corner is refused with its station', () => {
    const bent = [...line(point(0, 0), point(100, 0)).exact, ...line(point(100, 0), point(200, 20)).exact];
    expect(() => sharpen(bent, 2)).toThrow(/corner at station 100 mm/);
  });

  test('property: sharpen by a factor and then by its inverse returns the line', () => {
    const { exact } = batten(from, to, { through: [point(220, 90)] }, free);
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 20 }), (n) => {
        const factor = n ** 2 / (n ** 2 - 1);
        const back = sharpen(sharpen(exact, factor).flat(), 1 / factor).flat();
        expect(distance(paramCurve(back.at(-1)!)(1), to)).toBeLessThan(4 * FIT_MM);
      }),
      { numRuns: 8 },
    );
  });
});

function chordDistance(
  a: { x: number; y: number },
  b: { x: number; y: number },
  p: { x: number; y: number },
) {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const t = Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(a.x + t * dx - p.x, a.y + t * dy - p.y);
}
