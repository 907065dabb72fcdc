import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../../src/curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../../src/curves/geometry/point.ts';
import { PolylineBvh } from '../../../src/curves/geometry/polyline-bvh.ts';
import { arc } from '../../../src/curves/simple/arc.ts';
import { spline } from '../../../src/curves/simple/spline.ts';
import { findLeastWidth, firstCrossing } from '../../../src/part/outline/least-width.ts';
import { distanceTo } from '../../curves/measure.ts';

/** What `narrowest` promises. */
const WIDTH_MM = 1e-4;

const num = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const line = (from: Point, to: Point): Piece => ({ type: 'line', from, to });
const chain = (pieces: readonly Piece[]): PolylineBvh => new PolylineBvh(pieces);
const at = (y: number, ...rises: number[]): Point[] =>
  [0, ...rises, 0].map((rise, i, all) => point((1000 * i) / (all.length - 1), y + rise));

const straight = num(-40, 40).map((tilt): Piece[] => [line(point(0, tilt), point(1000, -tilt))]);
const corner = fc.tuple(num(200, 800), num(-60, 60)).map(([x, y]): Piece[] => {
  const join = point(x, y);
  return [line(point(0, 0), join), line(join, point(1000, 0))];
});
const lower = fc.oneof(
  straight,
  corner,
  num(1, 60).map((rise): Piece[] => [...arc(point(0, 0), point(1000, 0), { rise }).exact]),
  fc.tuple(num(100, 900), num(-60, 60)).map(([x, y]): Piece[] => {
    const ends = [point(0, 0), point(1000, 0)] as const;
    return [...batten(...ends, { nail: point(x, y * Math.min(x / 1000, 1 - x / 1000) * 2) }).exact];
  }),
);
const upper = fc.oneof(
  fc
    .tuple(num(-40, 40), num(-40, 40), num(-40, 40))
    .map((rises): Piece[] => [...spline(at(150, ...rises), 'natural', 'natural').exact]),
  fc.tuple(num(-40, 40), num(-40, 40)).map((rises): Piece[] => {
    const [a, p, q, b] = at(150, ...rises) as [Point, Point, Point, Point];
    return [...batten(a, b, { through: [p, q] }).exact];
  }),
);

/** Places on each piece that a slow search starts from, and straight stretches it takes each piece for. */
const [PLACES, STRETCHES] = [60, 1000];

/** The least distance by brute force: every place of one edge against all of the other, then closer round each dip. */
function slowWidth(a: readonly Piece[], b: readonly Piece[]): number {
  const off = toStretches(b);
  return Math.min(
    ...a.flatMap((piece) => {
      const on = paramCurve(piece);
      const widths = Array.from({ length: PLACES + 1 }, (_, i) => off(on(i / PLACES)));
      return widths.map((width, i) => {
        const isDip = width <= (widths[i - 1] ?? width) && width <= (widths[i + 1] ?? width);
        return isDip ? closer(on, off, (i - 1) / PLACES, (i + 1) / PLACES) : width;
      });
    }),
  );
}

/** A third of a millimetre long, a stretch strays (1/3)²/8/500 = 3e-5 mm from a curve of radius 500. */
function toStretches(pieces: readonly Piece[]): (p: Point) => number {
  const ways = pieces.map((piece) => {
    const on = paramCurve(piece);
    return Array.from({ length: STRETCHES + 1 }, (_, i) => on(i / STRETCHES));
  });
  return (p) => Math.sqrt(Math.min(...ways.map((way) => squaredOff(p, way))));
}

function squaredOff(p: Point, way: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < way.length; i++) {
    const [a, b] = [way[i - 1]!, way[i]!];
    const [x, y] = [b.x - a.x, b.y - a.y];
    const share = Math.min(Math.max(((p.x - a.x) * x + (p.y - a.y) * y) / (x * x + y * y), 0), 1);
    least = Math.min(least, (a.x + x * share - p.x) ** 2 + (a.y + y * share - p.y) ** 2);
  }
  return least;
}

function closer(on: (u: number) => Point, off: (p: Point) => number, from: number, to: number): number {
  let [low, high] = [Math.max(from, 0), Math.min(to, 1)];
  for (let i = 0; i < 25; i++) {
    const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
    if (off(on(p)) < off(on(q))) high = q;
    else low = p;
  }
  return off(on((low + high) / 2));
}

describe('the narrowest place of a part', () => {
  test('property: is as narrow as a slow search finds it', () => {
    fc.assert(
      fc.property(lower, upper, (a, b) => {
        const { width } = findLeastWidth(chain(a), chain(b));
        expect(Math.abs(width - slowWidth(a, b))).toBeLessThan(WIDTH_MM);
      }),
      { numRuns: 40 },
    );
  });

  test('property: is the same from either edge, and half-way between them', () => {
    fc.assert(
      fc.property(lower, upper, (a, b) => {
        const [one, other] = [findLeastWidth(chain(a), chain(b)), findLeastWidth(chain(b), chain(a))];
        expect(Math.abs(one.width - other.width)).toBeLessThan(WIDTH_MM);
        const off = (pieces: Piece[]): number =>
          Math.min(...pieces.map((piece) => distanceTo(piece, one.at)));
        expect(off(a)).toBeCloseTo(one.width / 2, 3);
        expect(off(b)).toBeCloseTo(one.width / 2, 3);
      }),
      { numRuns: 40 },
    );
  });

  test('of two parallel arcs is their distance', () => {
    // About one centre: radii 500²/(2·100) + 100/2 = 1300 and 1360.
    const round = (radius: number): Piece => ({
      type: 'arc',
      centre: point(500, -1200),
      radius,
      start: 2,
      sweep: -0.8,
    });
    expect(findLeastWidth(chain([round(1300)]), chain([round(1360)])).width).toBeCloseTo(60, 9);
  });

  test('property: the foot of a point lies on whichever piece is truly nearest, past a joint as well', () => {
    // A circle of 500 in two pieces: a point at radius r is |r - 500| off it, wherever its chain leads to.
    const R = 500;
    const on = (turn: number, r = R): Point => point(r * Math.sin(turn), r * Math.cos(turn));
    const piece = (from: number, to: number): readonly Piece[] =>
      arc(on(from), on(to), { through: on((from + to) / 2) }).exact;
    const circle = chain([...piece(-1, 0), ...piece(0, 1.3)]);
    fc.assert(
      fc.property(num(-0.03, 0.03), num(100, 700), (turn, r) => {
        const to = on(turn, r);
        expect(circle.closestPoint(to).distance).toBeCloseTo(Math.abs(r - R), 9);
      }),
      { numRuns: 2000 },
    );
  });

  test('finds the narrower of two nearly equal dips', () => {
    // Both hang half-way between two places that are looked at; the second hangs 0.01 mm lower.
    const hang = (x: number, low: number): Piece[] => [
      ...arc(point(x, 80), point(x + 500, 80), { rise: low - 80 }).exact,
    ];
    const width = (a: number, b: number): number =>
      findLeastWidth(chain([line(point(0, 0), point(1000, 0))]), chain([...hang(0, a), ...hang(500, b)]))
        .width;
    expect(width(50.01, 50)).toBeCloseTo(50, 9);
    expect(width(50, 50.01)).toBeCloseTo(50, 9);
  });
});

describe('where two edges cross', () => {
  test('property: they do not where their narrowest place is wide, and do where one is moved past the other', () => {
    fc.assert(
      fc.property(lower, upper, num(1, 400), (a, b, down) => {
        const moved = b.map((piece) => shifted(piece, -down));
        const { width } = findLeastWidth(chain(a), chain(moved));
        const at = firstCrossing(chain(a), chain(moved));
        // The chain strays less than 0.1 mm from a furniture curve.
        if (at) expect(width).toBeLessThan(0.2);
        else expect(width).toBeGreaterThan(1e-9);
        if (at) expect(Math.min(...a.map((piece) => distanceTo(piece, at)))).toBeLessThan(0.1);
      }),
      { numRuns: 40 },
    );
  });

  test('ends that meet in a point do not count', () => {
    const tip = point(1000, 0);
    const pointed = [[line(point(0, 0), tip)], [line(point(0, 60), tip)]] as const;
    expect(firstCrossing(chain(pointed[0]), chain(pointed[1]))).toBeUndefined();
    expect(findLeastWidth(chain(pointed[0]), chain(pointed[1])).width).toBe(0);
  });

  test('works with a thousand pieces on each side', () => {
    // Humps of 2 mm against dips of 2 mm: 50 − 2 − 2 at every other crest.
    const wave = (y: number, first: 1 | -1): Piece[] =>
      Array.from({ length: 1000 }, (_, i) => {
        const rise = (i % 2 ? -2 : 2) * first;
        return arc(point(i * 20, y), point(i * 20 + 20, y), { rise }).exact;
      }).flat();
    const [a, b] = [chain(wave(0, 1)), chain(wave(50, -1))];
    expect(firstCrossing(a, b)).toBeUndefined();
    expect(findLeastWidth(a, b).width).toBeCloseTo(46, 9);
  });
});

const shifted = (piece: Piece, y: number): Piece => {
  const move = (p: Point): Point => point(p.x, p.y + y);
  if (piece.type === 'cubic') {
    const [p, q, r, s] = piece.controls;
    return { type: 'cubic', controls: [move(p), move(q), move(r), move(s)] };
  }
  if (piece.type === 'elastica') return { ...piece, from: move(piece.from) };
  throw new Error(piece.type);
};
