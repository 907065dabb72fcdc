import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arcPath } from '../../../src/curves/arcs/arc-path.ts';
import { type BulgedArc, pointOnArc } from '../../../src/curves/arcs/biarc.ts';
import { fitArcs } from '../../../src/curves/arcs/fit-arcs.ts';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { bow } from '../../../src/curves/elastica/bow.ts';
import { maxDeviation } from '../../../src/curves/geometry/closest-point.ts';
import { paramCurve, pieceEnd, pieceStart } from '../../../src/curves/geometry/evaluate.ts';
import type { CubicSegment, Piece } from '../../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point, point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { ellipse } from '../../../src/curves/simple/ellipse.ts';
import { spline } from '../../../src/curves/simple/spline.ts';
import { apart, distancesFrom, meant, placesOn } from '../../export/drawn-line.ts';

const FREE = { start: false, end: false };
const HELD = { start: true, end: true };

const CURVES: Readonly<Record<string, readonly Piece[]>> = {
  'a leg': batten(point(0, 41.3), point(864, 50.8), { through: [point(305, 82.5)] }).exact,
  'an arch rail': batten(point(0, 0), point(1860, 0), { apex: point(930, 150) }).exact,
  'a strip over three nails': batten(point(0, 0), point(900, 0), {
    through: [point(200, 60), point(500, -20), point(700, 40)],
  }).exact,
  'a deep bow': bow(point(0, 0), point(600, 0), 200).exact,
  'half an ellipse': ellipse(point(0, 0), point(600, 0), 120).exact,
  'a tall ellipse': ellipse(point(0, 0), point(600, 0), 400).exact,
  'a bracket': spline(
    [point(0, 58), point(75, 65), point(150, 117), point(225, 183), point(300, 215)],
    'natural',
    'natural',
  ).exact,
};
const NAMES = Object.keys(CURVES);

/**
 * An arc as a rational curve of degree 2 over its ends and where its tangents meet: a reader that goes through
 * its centre would lose its digits on an arc all but straight.
 */
function readArc({ from, to, bulge }: BulgedArc): (u: number) => Point {
  const half = 2 * Math.atan(bulge);
  const [weight, out] = [Math.cos(half), Math.tan(half) / 2];
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const apex = point(from.x + dx / 2 + out * dy, from.y + dy / 2 - out * dx);
  return (u) => {
    const [a, b, c] = [(1 - u) ** 2, 2 * weight * u * (1 - u), u ** 2];
    const x = a * from.x + b * apex.x + c * to.x;
    return point(x / (a + b + c), (a * from.y + b * apex.y + c * to.y) / (a + b + c));
  };
}

/** Angles of the tangents at both ends of an arc: half its sweep off its chord. */
function tangents({ from, to, bulge }: BulgedArc): [number, number] {
  const chord = Math.atan2(to.y - from.y, to.x - from.x);
  return [chord - 2 * Math.atan(bulge), chord + 2 * Math.atan(bulge)];
}

const turn = (a: number, b: number): number => Math.abs(Math.atan2(Math.sin(b - a), Math.cos(b - a)));

describe('arcs in place of a curve', () => {
  test.each(NAMES)('%s: is within the tolerance, measured both ways', (name) => {
    const exact = CURVES[name]!;
    const arcs = fitArcs(exact, FIT_MM, FREE);
    expect(apart(arcs.map(readArc), meant(exact), 8)).toBeLessThanOrEqual(FIT_MM);
  });

  test.each([1, 0.1, 0.001, 1e-4])('keep a tolerance of %f mm too', (tolerance) => {
    const exact = CURVES['a leg']!;
    expect(apart(fitArcs(exact, tolerance, HELD).map(readArc), meant(exact))).toBeLessThanOrEqual(tolerance);
  });

  test.each(NAMES)('%s: run from end to end and meet without a corner', (name) => {
    const exact = CURVES[name]!;
    const arcs = fitArcs(exact, FIT_MM, HELD);
    const [start, end] = [pieceStart(exact[0]!), pieceEnd(exact.at(-1)!)];
    expect(distance(arcs[0]!.from, start)).toBeLessThan(1e-9);
    expect(distance(arcs.at(-1)!.to, end)).toBeLessThan(1e-9);
    expect(turn(tangents(arcs[0]!)[0], start.angle)).toBeLessThan(1e-9);
    expect(turn(tangents(arcs.at(-1)!)[1], end.angle)).toBeLessThan(1e-9);
    arcs.slice(1).forEach((arc, i) => {
      expect(distance(arcs[i]!.to, arc.from)).toBe(0);
      expect(turn(tangents(arcs[i]!)[1], tangents(arc)[0])).toBeLessThan(1e-9);
    });
  });
});

/**
 * The fewest arcs of any kind with their ends on the curve, corners allowed: a shortest path over pairs of
 * places, each pair joined by its best arc, by brute force (the minimum-number problem of Drysdale, Rote and
 * Sturm 2008). From each place all ends are tried up to the first that is far out of reach.
 */
function fewestByBruteForce(exact: readonly Piece[], tolerance: number, places: number): number {
  const spots = exact.flatMap((piece, k) => {
    const at = paramCurve(piece);
    const first = k === 0 ? 0 : 1;
    return Array.from({ length: places + 1 - first }, (_, i) => at((i + first) / places));
  });
  const least = spots.map(() => Number.POSITIVE_INFINITY);
  least[0] = 0;
  spots.forEach((_, i) => {
    for (let j = i + 1; j < spots.length; j++) {
      if (least[i]! + 1 >= least[j]!) continue;
      const error = bestArc(spots, i, j);
      if (error <= tolerance) least[j] = least[i]! + 1;
      if (error > 2 * tolerance) break;
    }
  });
  return least.at(-1)!;
}

/** The least worst error of an arc between two places, by a golden-section search over its bulge. */
function bestArc(spots: readonly Point[], i: number, j: number): number {
  const [from, to] = [spots[i]!, spots[j]!];
  const stride = Math.max(1, Math.floor((j - i) / 16));
  const worst = (bulge: number): number => {
    if (Math.abs(bulge) < 1e-12) return Number.POSITIVE_INFINITY;
    const side = (1 / bulge - bulge) / 4;
    const centre = point(
      (from.x + to.x) / 2 - side * (to.y - from.y),
      (from.y + to.y) / 2 + side * (to.x - from.x),
    );
    const radius = distance(centre, from);
    let off = 0;
    for (let k = i + 1; k < j; k += stride)
      off = Math.max(off, Math.abs(distance(centre, spots[k]!) - radius));
    return off;
  };
  let [low, high] = [-0.4, 0.4];
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let k = 0; k < 30; k++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (worst(a) < worst(b)) high = b;
    else low = a;
  }
  return worst((low + high) / 2);
}

describe('how few', () => {
  // Corners allowed and any place on the curve: no smooth chain can be expected to do with as few.
  test.each(['a leg', 'a deep bow', 'half an ellipse'])(
    '%s: a fifth more than the fewest arcs by brute force, at most',
    (name) => {
      const exact = CURVES[name]!;
      const fewest = fewestByBruteForce(exact, FIT_MM, Math.ceil(400 / exact.length));
      expect(fitArcs(exact, FIT_MM, FREE).length).toBeLessThanOrEqual(Math.ceil(fewest * 1.2));
      // With the tangents of its neighbours at both ends, at most two arcs more.
      expect(fitArcs(exact, FIT_MM, HELD).length).toBeLessThanOrEqual(Math.ceil(fewest * 1.2) + 2);
    },
  );

  test('a curve whose curvature changes evenly takes arcs as long as theory says', () => {
    // y = κ′x³/6, shallow. Smooth arcs of length h stray by κ′·max|B₃|·h³/6, B₃ the third Bernoulli polynomial,
    // whose largest value is √3/36 (DLMF 24.2): ε = κ′h³/(72√3). Biarcs with the curve's own tangents at every
    // other joint stray by κ′(2h)³/324 (Meek and Walton 1995): 1.45 times as many arcs.
    const [length, rate] = [1000, 1e-6];
    const cubic: CubicSegment = {
      type: 'cubic',
      controls: [
        point(0, 0),
        point(length / 3, 0),
        point((2 * length) / 3, 0),
        point(length, (rate * length ** 3) / 6),
      ],
    };
    const longest = Math.cbrt((72 * Math.sqrt(3) * FIT_MM) / rate);
    const count = fitArcs([cubic], FIT_MM, FREE).length;
    expect(count).toBeGreaterThanOrEqual(Math.floor((0.9 * length) / longest));
    expect(count).toBeLessThanOrEqual(Math.ceil(length / longest) + 1);
  });

  test('an arc or a nearly straight curve is one arc', () => {
    const strip = batten(point(0, 0), point(300, 0), { nail: point(150, 0.002) });
    expect(fitArcs(strip.exact, FIT_MM, FREE)).toHaveLength(1);
    const ring = ellipse(point(-50, 0), point(50, 0), 50);
    expect(fitArcs(ring.exact, FIT_MM, FREE).length).toBeLessThanOrEqual(4);
  });
});

describe('a path as lines and arcs', () => {
  const line = { type: 'line', from: point(0, 0), to: point(100, 0) } as const;
  const quarter = {
    type: 'arc',
    centre: point(100, 50),
    radius: 50,
    start: -Math.PI / 2,
    sweep: Math.PI / 2,
  } as const;

  test('keeps lines and arcs as they are, each ending where the next starts', () => {
    const path = arcPath([line, quarter], false, FIT_MM);
    expect(path).toHaveLength(2);
    expect(path[0]).toEqual({ from: point(0, 0), to: path[1]!.from, bulge: 0 });
    expect(path[1]!.bulge).toBeCloseTo(Math.tan(Math.PI / 8), 14);
  });

  test('draws a whole circle as two halves', () => {
    const ring = { ...quarter, sweep: -2 * Math.PI };
    const path = arcPath([ring], true, FIT_MM);
    expect(path.map(({ bulge }) => bulge)).toEqual([-1, -1].map((half) => expect.closeTo(half, 12)));
    expect(path[1]!.to).toEqual(path[0]!.from);
  });

  test('keeps the tangent of a line that runs into a curve', () => {
    const strip = spline([point(100, 0), point(200, 30), point(300, 20)], { held: 0 }, 'natural').exact;
    const [straight, first] = arcPath([line, ...strip], false, FIT_MM);
    expect(turn(tangents(straight!)[1], tangents(first!)[0])).toBeLessThan(1e-9);
  });
});

test.each([
  ['a sharp end beside a blunt one', 434.356, 1.4989, 87.956, -42.4624],
  ['the same the other way round', 87.956, -42.4624, 434.356, 1.4989],
  ['one flatter than the tolerance beside a tall one', 372_000, 0.00002, 6720, -1500],
  ['a flat one of a quarter of a kilometre', 264_510, 42.217, 6449, -1677.75],
])('two half ellipses end to end: %s', (_, one, rise, other, next) => {
  const middle = point(one, 0);
  const exact = [
    ...ellipse(point(0, 0), middle, rise).exact,
    ...ellipse(middle, point(one + other, 0), next).exact,
  ];
  const arcs = arcPath(exact, false, FIT_MM);
  expect(Math.max(...distancesFrom(meant(exact), placesOn(arcs.map(readArc), 10)))).toBeLessThanOrEqual(
    FIT_MM,
  );
  const places = arcs.flatMap((arc) => [0.2, 0.5, 0.8].map((u) => pointOnArc(arc, u)));
  expect(maxDeviation(places, exact)).toBeLessThanOrEqual(FIT_MM);
});

test('a spike between two gentle stretches takes no more arcs than it must', () => {
  const spike = spline(
    [point(25_000, 20), point(29_000, -55_000), point(97_000, 18_000), point(108_000, 30)],
    'natural',
    'natural',
  ).exact;
  const arcs = arcPath(spike, false, FIT_MM);
  expect(arcs.length).toBeLessThan(400);
  const places = arcs.flatMap((arc) => [0.2, 0.5, 0.8].map((u) => pointOnArc(arc, u)));
  expect(maxDeviation(places, spike)).toBeLessThanOrEqual(FIT_MM);
});

test('property: the arcs follow any strip over nails within the tolerance', () => {
  const rise = fc.double({ min: -0.12, max: 0.12, noNaN: true });
  fc.assert(
    fc.property(rise, rise, fc.integer({ min: -1, max: 4 }), fc.boolean(), (a, b, power, held) => {
      const size = 10 ** power;
      const { exact } = batten(point(0, 0), point(size, 0), {
        through: [point(0.3 * size, a * size), point(0.7 * size, b * size)],
      });
      const arcs = fitArcs(exact, FIT_MM, held ? HELD : FREE);
      expect(apart(arcs.map(readArc), meant(exact), 6)).toBeLessThanOrEqual(FIT_MM);
    }),
    { numRuns: 15 },
  );
});

describe('the measure of what is drawn', () => {
  test('keeps to its foot up and down a spike', () => {
    const spike = spline(
      [point(763.507, 1.097), point(773.924, -761.904), point(1218.34, -660.294), point(1622.998, 0)],
      'natural',
      'natural',
    ).exact;
    const places = spike.flatMap((piece) => Array.from({ length: 25 }, (_, i) => paramCurve(piece)(i / 24)));
    expect(maxDeviation(places, spike)).toBeLessThan(FIT_MM);
  });

  test('finds a fault wherever it is', () => {
    const exact = CURVES['a bracket']!;
    const places = fitArcs(exact, FIT_MM, FREE).flatMap((arc) =>
      Array.from({ length: 25 }, (_, i) => pointOnArc(arc, i / 24)),
    );
    expect(maxDeviation(places, exact)).toBeLessThanOrEqual(FIT_MM);
    places.forEach((place, i) => {
      if (i % 40 !== 0) return;
      const moved = places.map((p) => (p === place ? point(p.x + 0.03, p.y - 0.04) : p));
      // The place moves by 0.05 mm, slanting: at most that, and more than the tolerance.
      expect(maxDeviation(moved, exact)).toBeGreaterThan(FIT_MM);
      expect(maxDeviation(moved, exact)).toBeLessThan(0.05 + FIT_MM);
    });
  });
});
