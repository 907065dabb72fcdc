import { expect } from 'vitest';
import type { Curve } from '../../src/curves/curve.ts';
import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { Piece, Segment } from '../../src/curves/geometry/pieces/piece.ts';
import {
  add,
  direction,
  distance,
  leftNormal,
  type Point,
  scale,
  subtract,
} from '../../src/curves/geometry/point.ts';
import { rootBetween } from '../../src/curves/numeric/roots-and-minima.ts';

/** Draws a curve from its two ends and a place it bends towards; `backwards` when the ends are swapped. */
export type Draw = (from: Point, to: Point, bent: Point, backwards: boolean) => Curve;

/** A chord anywhere on the part, and a place beside it as shares of the chord. */
export interface Setting {
  readonly from: Point;
  readonly chord: number;
  readonly angle: number;
  readonly share: number;
  readonly rise: number;
}

/** Places of two curves agree this closely, as a share of the chord: the accuracy that every kind promises. */
export const PROMISE = 1e-9;

const STEPS = [0, 0.13, 0.4, 0.5, 0.77, 1];

/** A curve drawn turned, shifted, scaled, mirrored or from the other end is the same line there. */
export function expectSameLineAnywhere(draw: Draw, { from, chord, angle, share, rise }: Setting): void {
  const plain = draw({ x: 0, y: 0 }, { x: 1000, y: 0 }, { x: 1000 * share, y: 1000 * rise }, false);
  for (const side of [1, -1]) {
    const along = direction(angle);
    const across = scale(leftNormal(along), side);
    const move = ({ x, y }: Point): Point =>
      add(from, scale(add(scale(along, x), scale(across, y)), chord / 1000));
    const [a, b, bent] = [
      { x: 0, y: 0 },
      { x: 1000, y: 0 },
      { x: 1000 * share, y: 1000 * rise },
    ].map(move) as [Point, Point, Point];
    expectSamePlaces(plain, draw(a, b, bent, false), move, (u) => u, chord);
    const back = draw(b, a, bent, true);
    expectSamePlaces(plain, { ...back, exact: [...back.exact].reverse() }, move, (u) => 1 - u, chord);
  }
}

function expectSamePlaces(
  plain: Curve,
  moved: Curve,
  move: (p: Point) => Point,
  step: (u: number) => number,
  chord: number,
): void {
  expect(moved.exact).toHaveLength(plain.exact.length);
  plain.exact.forEach((piece, i) => {
    const [here, there] = [paramCurve(piece), paramCurve(moved.exact[i]!)];
    for (const u of STEPS)
      expect(distance(move(here(u)), there(step(u)))).toBeLessThanOrEqual(PROMISE * chord);
  });
}

/** Steps along an exact piece: the polygon through them lies within 1e-4 mm of a part's curve. */
const FINE = 3000;
/** Places on a drawn segment that are held against it. */
const HELD = 24;

/** The farthest that a drawn path lies from the exact pieces, mm, by brute force. */
export function worstMiss(exact: readonly Piece[], path: readonly Segment[]): number {
  const line = exact.flatMap((piece) => {
    const at = paramCurve(piece);
    return Array.from({ length: FINE + 1 }, (_, i) => at(i / FINE));
  });
  const miss = (p: Point): number =>
    line.reduce(
      (least, b, i) => (i === 0 ? least : Math.min(least, toSegment(p, line[i - 1]!, b))),
      Infinity,
    );
  return Math.max(
    ...path.flatMap((segment) => {
      const at = paramCurve(segment);
      return Array.from({ length: HELD + 1 }, (_, i) => miss(at(i / HELD)));
    }),
  );
}

function toSegment(p: Point, a: Point, b: Point): number {
  const [ab, ap] = [subtract(b, a), subtract(p, a)];
  const t = (ap.x * ab.x + ap.y * ab.y) / (ab.x ** 2 + ab.y ** 2);
  return Number.isFinite(t) ? distance(p, add(a, scale(ab, Math.min(Math.max(t, 0), 1)))) : distance(p, a);
}

/** Rounding may leave a station between two pieces, mm. */
const BETWEEN_MM = 1e-9;

/** The offset of a curve over a station, for a curve that stands over each station once. */
export function offsetAt(curve: Curve, station: number): number {
  const places = curve.exact.map(paramCurve);
  for (const at of places) {
    const u = rootBetween((v) => at(v).x - station, 0, 1);
    if (u !== undefined) return at(u).y;
  }
  const end = places.map((at) => at(1)).find(({ x }) => Math.abs(x - station) < BETWEEN_MM);
  if (end) return end.y;
  throw new Error(`no place over station ${station}`);
}
