import { expect, test } from 'vitest';
import { arcPath } from '../../src/curves/arcs/arc-path.ts';
import { pointOnArc } from '../../src/curves/arcs/biarc.ts';
import { pathBounds } from '../../src/curves/geometry/bounds.ts';
import { maxDeviation } from '../../src/curves/geometry/closest-point.ts';
import { type Point, point } from '../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../src/curves/geometry/tolerance.ts';
import { ellipse } from '../../src/curves/simple/ellipse.ts';
import { spline } from '../../src/curves/simple/spline.ts';
import { ARC_FIT_MM } from '../../src/export/full-size/full-size.ts';
import { farthestFrom, meant, placesOn } from '../export/drawn-line.ts';
import { Random, ROUNDS } from '../fuzz/random.ts';
import { either, spread } from './cases.ts';

/** Twenty rounds are two hundred. */
const A_ROUND = 10;

/** Places measured on each arc. */
const SHARES = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

/** Chord and rise: of every second one a rise that a shop may make, else any that can be written. */
function anyEllipse(random: Random): readonly [chord: number, rise: number] {
  const usual = random.next() < 0.5;
  const chord = usual ? spread(random, 30, 3000) : spread(random, 5, 400_000);
  const rise = spread(random, usual ? chord * 0.003 : 1e-5, chord / 2);
  return [chord, random.next() < 0.5 ? rise : -rise];
}

test('half ellipses end to end, however flat, become arcs within the tolerance and are measured so', () => {
  for (let i = 0; i < A_ROUND * ROUNDS; i++) {
    const random = new Random(i);
    const [[one, rise], [other, next]] = [anyEllipse(random), anyEllipse(random)];
    const middle = point(one, 0);
    const pieces = [
      ...ellipse(point(0, 0), middle, rise).exact,
      ...ellipse(middle, point(one + other, 0), next).exact,
    ];
    const places = arcPath(pieces, false, ARC_FIT_MM).flatMap((arc) => SHARES.map((u) => pointOnArc(arc, u)));
    const told = `case ${i} of this seed: ${one}, ${rise}, ${other}, ${next}`;
    const off = farthestFrom(meant(pieces), places);
    expect(off, told).toBeLessThanOrEqual(FIT_MM);
    const measured = maxDeviation(places, pieces);
    expect(measured, told).toBeGreaterThan(off - FIT_MM / 100);
    expect(measured, told).toBeLessThanOrEqual(FIT_MM);
  }
}, 600_000);

test('a place on either of two half ellipses that meet sharply is told to lie on them', () => {
  // Looks at the one lie nearer to places of the other, although their feet are millimetres away.
  const [one, rise, other, next] = [
    1211.6917748392138, -336.33440878668983, 2691.4666015556013, -122.03558517769947,
  ];
  const pieces = [
    ...ellipse(point(0, 0), point(one, 0), rise).exact,
    ...ellipse(point(one, 0), point(one + other, 0), next).exact,
  ];
  expect(farthestFrom(meant(pieces), placesOn(meant(pieces), 500))).toBeLessThan(1e-4);
});

/** Points of a spline that shoots up: to a point a hair from its start, or between two a hair apart. */
function anySpike(random: Random): Point[] {
  const [chord, rise] = [spread(random, 5, 50_000), either(random) * spread(random, 1e-3, 0.5)];
  const [width, at] = [spread(random, 1e-4, 0.1), 0.2 + 0.6 * random.next()];
  const shares: (readonly [x: number, y: number])[] =
    random.next() < 0.5
      ? [
          [width / 10, rise],
          [at, rise * (random.next() - 0.5)],
        ]
      : [
          [at - width, 0],
          [at, rise],
          [at + width, 0],
        ];
  return [point(0, 0), ...shares.map(([x, y]) => point(chord * x, chord * y)), point(chord, 0)];
}

/** A spike climbs as far as its points' slope takes it: beyond this, mm, it is no line that can be drawn. */
const FARTHEST = 400_000;

test('splines with spikes become arcs within the tolerance', () => {
  for (let i = 0; i < A_ROUND * ROUNDS; i++) {
    const points = anySpike(new Random(i));
    const { exact, path } = spline(points, 'natural', 'natural');
    if (pathBounds(path).top - pathBounds(path).bottom > FARTHEST) continue;
    const places = arcPath(exact, false, ARC_FIT_MM).flatMap((arc) => SHARES.map((u) => pointOnArc(arc, u)));
    // What is measured is the distance to a place on the curve: never less than the least.
    expect(maxDeviation(places, exact), `case ${i}: ${JSON.stringify(points)}`).toBeLessThanOrEqual(FIT_MM);
  }
}, 600_000);
