import { expect, test } from 'vitest';
import type { Curve } from '../../src/curves/curve.ts';
import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import { point, toPoint } from '../../src/curves/geometry/point.ts';
import { figuresOf } from '../../src/curves/measurements.ts';
import { taperedBatten } from '../../src/curves/tapered/tapered-batten.ts';
import { neighbors } from '../../src/units/checked.ts';

/*
 * A strip tapered to half that a stop holds lengthwise at its first end, and that slides over the nail and the other
 * end: nothing pushes it along there. Chord and stiffness at the first end 1, the nail in the middle. Run from the
 * first end by the method of Runge and Kutta, what is not known there found by Newton's steps on differences.
 */
const TAPER = 0.5;
const STEPS = 200;

/** At the first end: the tangent, the force on the strip; the nail's push, and the lengths to the nail and from it. */
type Unknowns = readonly [angle: number, fx: number, fy: number, push: number, before: number, after: number];
type State = readonly [x: number, y: number, angle: number, moment: number];

interface Run {
  readonly end: State;
  readonly places: readonly State[];
}

function run(
  from: State,
  s: number,
  length: number,
  whole: number,
  [fx, fy]: readonly [number, number],
): Run {
  const slope = ([, , angle, moment]: State, at: number): State => [
    Math.cos(angle),
    Math.sin(angle),
    moment / (1 - ((1 - TAPER) * at) / whole) ** 3,
    fy * Math.cos(angle) - fx * Math.sin(angle),
  ];
  const moved = (state: State, by: State, h: number): State =>
    state.map((value, i) => value + h * by[i]!) as unknown as State;
  const h = length / STEPS;
  let now = from;
  const places = [from];
  for (let i = 0; i < STEPS; i++) {
    const at = s + i * h;
    const a = slope(now, at);
    const b = slope(moved(now, a, h / 2), at + h / 2);
    const c = slope(moved(now, b, h / 2), at + h / 2);
    const d = slope(moved(now, c, h), at + h);
    now = now.map(
      (value, j) => value + (h / 6) * (a[j]! + 2 * b[j]! + 2 * c[j]! + d[j]!),
    ) as unknown as State;
    places.push(now);
  }
  return { end: now, places };
}

/** What is left to be met over a nail so high, and the strip's apex. */
function strip(
  [angle, fx, fy, push, before, after]: Unknowns,
  rise: number,
): { left: number[]; places: readonly State[] } {
  const whole = before + after;
  const one = run([0, 0, angle, 0], 0, before, whole, [fx, fy]);
  const at = one.end[2];
  const beyond = [fx - push * Math.sin(at), fy + push * Math.cos(at)] as const;
  const { end, places } = run(one.end, before, after, whole, beyond);
  const along = beyond[0] * Math.cos(end[2]) + beyond[1] * Math.sin(end[2]);
  return {
    left: [one.end[0] - 0.5, one.end[1] - rise, end[0] - 1, end[1], end[3], along],
    places: [...one.places, ...places],
  };
}

/** Elimination with the largest pivot. */
function solved(rows: number[][]): number[] {
  const n = rows.length;
  for (let i = 0; i < n; i++) {
    const pivot = rows.slice(i).reduce((a, b) => (Math.abs(b[i]!) > Math.abs(a[i]!) ? b : a));
    rows.splice(rows.indexOf(pivot), 1);
    rows.splice(i, 0, pivot);
    for (const row of rows)
      if (row !== pivot) {
        const share = row[i]! / pivot[i]!;
        pivot.forEach((value, j) => {
          row[j] = row[j]! - share * value;
        });
      }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

const NUDGE = 1e-6;

function placesOver(rise: number): readonly State[] {
  // As a beam that small a rise bends: half the turn at either end, then higher and higher.
  let now: Unknowns = [0.06, 0, -0.3, 0.6, 0.5, 0.5];
  for (let high = 0.02; high < rise + 0.01; high += 0.02)
    for (let i = 0; i < 6; i++) {
      const { left } = strip(now, high);
      const columns = now.map(
        (value, k) =>
          strip(now.map((v, j) => (j === k ? value + NUDGE : v)) as unknown as Unknowns, high).left,
      );
      const step = solved(
        left.map((value, r) => [...columns.map((column) => (column[r]! - value) / NUDGE), -value]),
      );
      now = now.map((value, k) => value + step[k]!) as unknown as Unknowns;
    }
  const { left, places } = strip(now, rise);
  expect(Math.max(...left.map(Math.abs))).toBeLessThan(1e-9);
  return places;
}

/** How far a place lies off a curve: square to it, and along the offset at its station. */
function gapsTo({ exact }: Curve): (place: State) => readonly [square: number, offset: number] {
  const places = exact.flatMap((piece) =>
    Array.from({ length: 2001 }, (_, i) => toPoint(paramCurve(piece)(i / 2000))),
  );
  return ([x, y]) => {
    const chain = neighbors(places);
    const [a, b] = chain.find(([, to]) => to.x >= x) ?? chain.at(-1)!;
    const offset = a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
    return [Math.min(...places.map((at) => Math.hypot(at.x - x, at.y - y))), Math.abs(y - offset)];
  };
}

// The docstring of taperedBatten, to half of the last figure it gives: the apex, then all the line.
test.each([
  [0.2, 0.15, 0.81, 0.92, 0.005],
  [0.3, 0.5, 2.2, 3, 0.05],
])(
  'tapered to half and held lengthwise instead: over a rise of %f the apex is %f percent higher, the line %f percent off, its offsets %f percent',
  (rise, percent, square, offset, told) => {
    const free = taperedBatten(
      point(0, 0),
      point(1, 0),
      { nail: point(0.5, rise) },
      { from: 0.01, to: 0.005 },
    );
    const places = placesOver(rise);
    const higher = (Math.max(...places.map(([, y]) => y)) - figuresOf(free).apex!.rise) / rise;
    expect(Math.abs(higher * 100 - percent)).toBeLessThan(told);
    const gaps = places.map(gapsTo(free));
    const most = [0, 1].map((i) => (100 * Math.max(...gaps.map((gap) => gap[i]!))) / rise);
    expect(Math.abs(most[0]! - square)).toBeLessThan(told);
    expect(Math.abs(most[1]! - offset)).toBeLessThan(told);
  },
);
