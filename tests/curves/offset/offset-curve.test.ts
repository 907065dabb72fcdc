import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { freeRiseLimit } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { pieceEnd, pieceStart } from '../../../src/curves/geometry/evaluate.ts';
import type { ArcSegment, Piece, Segment } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { reversePiece } from '../../../src/curves/geometry/transform.ts';
import { parallelPath } from '../../../src/curves/offset/offset-curve.ts';
import { arc } from '../../../src/curves/simple/arc.ts';
import { ellipse } from '../../../src/curves/simple/ellipse.ts';
import { distanceTo, largestGap, spread } from '../measure.ts';

const line = (...points: [number, number][]): Segment[] =>
  points
    .slice(1)
    .map(([x, y], i) => ({ type: 'line', from: { x: points[i]![0], y: points[i]![1] }, to: { x, y } }));

const awayFrom = (pieces: readonly Piece[], p: { x: number; y: number }): number =>
  Math.min(...pieces.map((piece) => distanceTo(piece, p)));

describe('the saw line beside a finished line', () => {
  test('beside an arc it is the arc of the same centre', () => {
    const { exact } = arc({ x: 0, y: 0 }, { x: 600, y: 0 }, { rise: 75 });
    const [outer] = parallelPath(exact, 2, false) as [ArcSegment];
    expect(outer.type).toBe('arc');
    expect(outer.radius).toBeCloseTo(639.5, 9); // 637.5 (Euclid III.35) + 2, on the outside of the bulge
  });

  test('a parallel of a very flat half ellipse goes around the sharp ends', () => {
    const { exact } = ellipse({ x: 0, y: 0 }, { x: 1e6, y: 0 }, 2e-5);
    const path = parallelPath(exact, 3, false);
    const ends = [pieceStart(path[0]!), pieceEnd(path.at(-1)!)].map(({ x, y }) => [x, y]);
    expect(ends).toEqual([
      [expect.closeTo(-3, 6), expect.closeTo(0, 6)],
      [expect.closeTo(1e6 + 3, 6), expect.closeTo(0, 6)],
    ]);
    // A flat end is as good as a point: the parallel is a quarter circle round it, and a straight line between.
    for (const { x, y } of spread(path, 8)) {
      const beyond = Math.max(-x, x - 1e6, 0);
      expect(Math.abs(Math.hypot(beyond, y) - 3)).toBeLessThan(FIT_MM);
    }
  });

  test('property: beside a strip every place is at the distance, within the fit', () => {
    const share = fc.double({ min: 0.1, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(
        share,
        fc.double({ min: 0.01, max: 0.9, noNaN: true }),
        fc.constantFrom(-3, 1.5, 8),
        (x, of, away) => {
          const nail = { x: 900 * x, y: 900 * of * freeRiseLimit(x) };
          const { exact } = batten({ x: 0, y: 0 }, { x: 900, y: 0 }, { nail });
          const path = parallelPath(exact, away, false);
          expect(largestGap(path)).toBeLessThan(1e-6);
          for (const p of spread(path, 4))
            expect(Math.abs(awayFrom(exact, p) - Math.abs(away))).toBeLessThan(FIT_MM);
        },
      ),
      { numRuns: 25 },
    );
  });

  test('outside a square corner both sides run on until they meet', () => {
    const path = parallelPath(line([0, 0], [100, 0], [100, 50]), -5, false);
    expect(path.map(pieceEnd).map(({ x, y }) => [x, y])).toContainEqual([105, -5]);
    expect(largestGap(path)).toBeLessThan(1e-9);
  });

  test('inside a square corner both sides are trimmed where they cross', () => {
    const path = parallelPath(line([0, 0], [100, 0], [100, 50]), 5, false);
    expect(path).toHaveLength(2);
    expect(pieceEnd(path[0]!).x).toBeCloseTo(95, 9);
    expect(pieceStart(path[1]!).y).toBeCloseTo(5, 9);
  });

  test('a corner sharper than square is cut off at the distance, never nearer', () => {
    const sharp = line([0, 0], [100, 0], [0, 10]);
    const path = parallelPath(sharp, -2, false);
    expect(largestGap(path)).toBeLessThan(1e-9);
    for (const p of spread(path, 20)) expect(awayFrom(sharp, p)).toBeGreaterThan(2 - 1e-9);
    expect(Math.max(...spread(path, 20).map(({ x }) => x))).toBeLessThan(104);
  });

  test('round a closed outline it closes', () => {
    const box = line([0, 0], [100, 0], [100, 40], [0, 40], [0, 0]);
    const path = parallelPath(box, -3, true);
    expect(distance(pieceEnd(path.at(-1)!), pieceStart(path[0]!))).toBeLessThan(1e-9);
    expect(path.map(pieceEnd).some(({ x, y }) => Math.hypot(x + 3, y + 3) < 1e-9)).toBe(true);
  });
});

describe('parallels that are refused', () => {
  test('inside a bend tighter than the distance it would fold, and the fault names radius and place', () => {
    const { exact } = arc({ x: 0, y: 0 }, { x: 40, y: 0 }, { rise: 20 }); // radius 20
    expect(() => parallelPath(exact, -25, false)).toThrow(
      expect.objectContaining({ code: 'parallel.folds' }),
    );
    expect(() => parallelPath(exact, -25, false)).toThrow(/radius is only 20 mm/);
    expect(() => parallelPath(exact, -19, false)).not.toThrow();
  });

  const bulge = ellipse({ x: 0, y: 0 }, { x: 40, y: 0 }, 8).exact;
  test.each([
    ['before it', [...line([0, 10], [0, 0]), ...bulge]],
    ['past it', [...bulge, ...line([40, 0], [40, 10])]],
  ])('a half ellipse leaves no room beside a shoulder %s, where the line turns right back', (_, forth) => {
    const back = forth.map(reversePiece).reverse();
    for (const [pieces, away] of [
      [forth, 1],
      [back, -1],
    ] as const) {
      expect(() => parallelPath(pieces, away, false)).toThrow(
        expect.objectContaining({ code: 'parallel.no-room' }),
      );
      const under = spread(parallelPath(pieces, -away, false), 20).map((p) => awayFrom(pieces, p));
      expect(Math.min(...under)).toBeGreaterThan(1 - FIT_MM);
      expect(Math.max(...under)).toBeLessThan(Math.SQRT2 + FIT_MM);
    }
  });

  test('a run too short for its inside corner is refused', () => {
    expect(() => parallelPath(line([0, 0], [100, 0], [100, 3]), 5, false)).toThrow(
      expect.objectContaining({ code: 'parallel.no-room' }),
    );
  });
});
