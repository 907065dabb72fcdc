import { readFileSync } from 'node:fs';
import { batten } from '../../src/curves/elastica/batten.ts';
import { strip } from '../../src/curves/elastica/solve-strip.ts';
import { freeRiseLimit, solveThreePinStrip } from '../../src/curves/elastica/three-pin-closed-form.ts';
import { fairnessOf } from '../../src/curves/fairness/fairness.ts';
import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import { fitPath } from '../../src/curves/geometry/fit-cubics.ts';
import type { Piece } from '../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../src/curves/geometry/tolerance.ts';
import { figuresOf } from '../../src/curves/measurements.ts';
import type { ReferenceCases } from '../curves/reference.ts';
import { type Figure, median, RUNS } from './figure.ts';

const A = { x: 0, y: 0 };
const B = { x: 860, y: 0 };
const FREE = { start: 'free', end: 'free' } as const;
const HELD = { start: { held: 0 }, end: { held: 0 } } as const;

/** Nails over the whole range a strip stands in, shallow to the limit. */
const nail = (i: number): Point => {
  const share = 0.1 + 0.8 * ((i * 0.618) % 1);
  return { x: 860 * share, y: 860 * freeRiseLimit(share) * 0.99 * ((i * 0.382) % 1) + 0.1 };
};

/** Pins on a gentle bend, each a little off it, and steeper as i grows. */
const manyPins = (count: number, i: number, height: number): Point[] =>
  Array.from({ length: count }, (_, k) => {
    const u = k / (count - 1);
    return {
      x: 860 * u,
      y: 860 * height * (4 * u * (1 - u) + 0.15 * Math.sin(9 * k + i)) * (k % (count - 1) ? 1 : 0),
    };
  });

/** Bundled elsewhere and run in the project folder: files are named from there. */
const reference = JSON.parse(readFileSync('tests/fixtures/batten-cases.json', 'utf8')) as ReferenceCases;

/** The worst distance of the strip's tangents at its pins from the reference, radians. */
const battenError = (): number =>
  Math.max(
    ...reference.free3pin.map((one) => {
      const [a, n, b] = one.inputs.pins.map(([x, y]) => ({ x, y })) as [Point, Point, Point];
      return Math.abs(solveThreePinStrip(a, n, b)[0].angle - one.outputs.theta_at_pins[0]!);
    }),
  );

const strips = [...reference.heldEnds, ...reference.manyPins];

/** The same over all strips of other ends or of so many pins. */
const stripError = (pins: number): number =>
  Math.max(
    ...strips.flatMap(({ inputs, outputs }) => {
      if (inputs.pins.length !== pins) return [];
      const kept = (angle: number | null) => (angle === null ? 'free' : { held: angle });
      const ends = { start: kept(inputs.hold_A), end: kept(inputs.hold_B) } as const;
      const found = strip(
        inputs.pins.map(([x, y]) => ({ x, y })),
        ends,
      );
      return found.pins.map(({ angle }, i) => Math.abs(angle - outputs.theta_at_pins[i]!));
    }),
  );

const apexes = Array.from({ length: RUNS }, (_, i) => figuresOf(batten(A, B, { nail: nail(i) })).apex!.at);

/** How far from where it was asked the apex comes to lie, as a share of the chord. */
const apexError = (): number =>
  Math.max(
    ...apexes.map((apex) => distance(figuresOf(batten(A, B, { apex })).apex!.at, apex) / distance(A, B)),
  );

/** Places on each cubic and links of the exact curve that it is measured against. */
const [PLACES, LINKS] = [16, 2000];

/** How far the fitted path lies from its exact curve, mm: places on it against many short links. */
function fitError(pieces: readonly Piece[]): number {
  const exact = pieces.flatMap((piece) => {
    const at = paramCurve(piece);
    return Array.from({ length: LINKS + 1 }, (_, i) => at(i / LINKS));
  });
  const off = (p: Point): number => {
    const nearest = exact.reduce((best, q, i) => (distance(p, q) < distance(p, exact[best]!) ? i : best), 0);
    const { x, y, angle } = exact[nearest]!;
    return Math.abs((p.y - y) * Math.cos(angle) - (p.x - x) * Math.sin(angle));
  };
  return Math.max(
    ...fitPath(pieces).flatMap((segment) => {
      const at = paramCurve(segment);
      return Array.from({ length: PLACES + 1 }, (_, i) => off(at(i / PLACES)));
    }),
  );
}

const bends = Array.from({ length: RUNS }, (_, i) => batten(A, B, { nail: nail(i) }).exact);

export const curveFigures = (): Figure[] => [
  {
    name: 'batten over 3 pins',
    value: median((i) => solveThreePinStrip(A, nail(i), B)),
    unit: 'ms',
    goal: 0.5,
  },
  { name: 'batten over 3 pins: worst tangent error', value: battenError(), unit: 'rad', goal: 1e-9 },
  {
    name: 'batten over 3 pins, ends held: worst tangent error',
    value: stripError(3),
    unit: 'rad',
    goal: 1e-9,
  },
  {
    name: 'batten over 5 pins',
    value: median((i) => strip(manyPins(5, i, 0.08), FREE)),
    unit: 'ms',
    goal: 0.5,
  },
  { name: 'batten over 5 pins: worst tangent error', value: stripError(5), unit: 'rad', goal: 1e-9 },
  {
    name: 'batten over 7 pins, ends held',
    value: median((i) => strip(manyPins(7, i, 0.08), HELD)),
    unit: 'ms',
    goal: 0.5,
  },
  {
    name: 'batten over 7 pins, deep',
    value: median((i) => strip(manyPins(7, i, 0.3), FREE)),
    unit: 'ms',
    goal: 1,
  },
  { name: 'batten over 7 pins: worst tangent error', value: stripError(7), unit: 'rad', goal: 1e-9 },
  {
    name: 'batten by its apex',
    value: median((i) => batten(A, B, { apex: apexes[i]! })),
    unit: 'ms',
    goal: 8,
  },
  { name: 'batten by its apex: worst error', value: apexError(), unit: 'of the chord', goal: 1e-9 },
  { name: 'fit of a batten', value: median((i) => fitPath(bends[i]!)), unit: 'ms', goal: 0.5 },
  {
    name: 'fit of a batten: worst error',
    value: Math.max(...bends.filter((_, i) => i % 20 === 0).map(fitError)),
    unit: 'mm',
    goal: FIT_MM,
  },
  {
    name: 'figures of a batten',
    value: median((i) => figuresOf(batten(A, B, { nail: nail(i) }))),
    unit: 'ms',
  },
  {
    name: 'fairness of a batten',
    value: median((i) => fairnessOf([batten(A, B, { nail: nail(i) })])),
    unit: 'ms',
  },
];
