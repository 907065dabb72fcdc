import { expect, test } from 'vitest';
import { batten } from '../../src/curves/elastica/batten.ts';
import { type CurvePoint, paramCurve } from '../../src/curves/geometry/evaluate.ts';
import { point } from '../../src/curves/geometry/point.ts';
import { figuresOf } from '../../src/curves/measurements.ts';

/*
 * A strip over one nail with friction at the nails of its ends: chord and stiffness 1. From either end the moment is
 * that of the end nail's force, square to the strip and a share of it along. Both halves meet on the nail with one
 * tangent and one moment. Run by the method of Runge and Kutta, the unknowns found by Newton's steps on differences.
 */
type Unknowns = readonly [
  push0: number,
  angle0: number,
  length0: number,
  push1: number,
  angle1: number,
  length1: number,
];
type State = readonly [x: number, y: number, angle: number];
const STEPS = 120;

/** From an end at station `x0`, `way` 1 to the right; the last state with its moment. */
function half(x0: number, way: 1 | -1, [push, angle, length]: readonly number[], friction: number) {
  const fx = push! * (Math.sin(angle!) + friction * Math.cos(angle!));
  const fy = push! * (friction * Math.sin(angle!) - Math.cos(angle!));
  const moment = (x: number, y: number): number => way * ((x - x0) * fy - y * fx);
  const slope = ([x, y, a]: State): State => [Math.cos(a), Math.sin(a), moment(x, y)];
  const moved = (s: State, by: State, h: number): State => [
    s[0] + h * by[0],
    s[1] + h * by[1],
    s[2] + h * by[2],
  ];
  const h = (way * length!) / STEPS;
  const places: State[] = [[x0, 0, angle!]];
  for (let i = 0; i < STEPS; i++) {
    const now = places[i]!;
    const a = slope(now);
    const b = slope(moved(now, a, h / 2));
    const c = slope(moved(now, b, h / 2));
    const d = slope(moved(now, c, h));
    places.push(
      [0, 1, 2].map((k) => now[k]! + (h / 6) * (a[k]! + 2 * b[k]! + 2 * c[k]! + d[k]!)) as unknown as State,
    );
  }
  const last = places.at(-1)!;
  return { places, end: [...last, moment(last[0], last[1])] };
}

function halves(u: Unknowns, [left, right]: readonly [number, number]) {
  return [half(0, 1, u.slice(0, 3), left), half(1, -1, u.slice(3), right)] as const;
}

function solved(rows: number[][]): number[] {
  for (let i = 0; i < rows.length; i++) {
    const best = rows.slice(i).reduce((a, b) => (Math.abs(b[i]!) > Math.abs(a[i]!) ? b : a));
    rows.splice(rows.indexOf(best), 1);
    rows.splice(i, 0, best);
    for (const row of rows)
      if (row !== best) {
        const share = row[i]! / best[i]!;
        for (let k = 0; k < row.length; k++) row[k] = row[k]! - share * best[k]!;
      }
  }
  return rows.map((row, i) => row.at(-1)! / row[i]!);
}

/** The strip over a nail at `a`, its height and the frictions grown in steps. */
function strip(a: number, rise: number, frictions: readonly [number, number]): State[] {
  const low = rise / 50;
  let now: Unknowns = [(3 * low) / a, (1.5 * low) / a, a, (3 * low) / (1 - a), (-1.5 * low) / (1 - a), 1 - a];
  const gap = (u: Unknowns, share: number): number[] => {
    const [one, other] = halves(u, [share * frictions[0], share * frictions[1]]).map(({ end }) => end);
    const high = rise * share;
    return [
      one![0]! - a,
      one![1]! - high,
      other![0]! - a,
      other![1]! - high,
      one![2]! - other![2]!,
      one![3]! - other![3]!,
    ];
  };
  for (let step = 1; step <= 50; step++)
    for (let i = 0; i < 4; i++) {
      const off = gap(now, step / 50);
      const columns = now.map((v, k) =>
        gap(now.map((w, j) => (j === k ? v + 1e-7 : w)) as unknown as Unknowns, step / 50),
      );
      const by = solved(
        off.map((value, r) => [...columns.map((column) => (column[r]! - value) / 1e-7), -value]),
      );
      now = now.map((v, k) => v + by[k]!) as unknown as Unknowns;
    }
  expect(Math.max(...gap(now, 1).map(Math.abs))).toBeLessThan(1e-8);
  return halves(now, frictions).flatMap(({ places }, i) => (i === 0 ? places : places.toReversed()));
}

/** How far the strip with friction lies off the batten, as a share of the batten's rise. */
function stray(a: number, rise: number, frictions: readonly [number, number]): number {
  const line = batten(point(0, 0), point(1, 0), { nail: point(a, rise) });
  const places = line.exact.flatMap((piece) =>
    Array.from({ length: 1500 }, (_, i) => paramCurve(piece)(i / 1499)),
  );
  const off = strip(a, rise, frictions).map(([x, y]) => {
    const away = (at: CurvePoint): number => Math.hypot(at.x - x, at.y - y);
    const near = places.reduce((one, other) => (away(other) < away(one) ? other : one));
    return Math.abs(Math.cos(near.angle) * (y - near.y) - Math.sin(near.angle) * (x - near.x));
  });
  return Math.max(...off) / figuresOf(line).apex!.rise;
}

test('without friction the two halves are the batten', () => {
  for (const a of [0.5, 0.3, 0.2]) expect(stray(a, 0.07, [0, 0])).toBeLessThan(1e-4);
});

// The coefficients of a planed strip on steel nails, 0.2 to 0.4, are from memory.
test.each([
  [0.2, 0.0716, 0.4, 0.012],
  [0.2, 0.0716, 0.2, 0.006],
  [0.3, 0.0884, 0.4, 0.009],
  [0.4, 0.0973, 0.4, 0.006],
  [0.5, 0.1, 0.4, 0.004],
  [0.2, 0.0355, 0.4, 0.006],
])(
  'friction over a nail at %f, its rise %f, its coefficient %f keeps a strip off its line by %f of the rise at most',
  (a, rise, mu, most) => {
    const strays = [
      [0, mu],
      [0, -mu],
      [mu, 0],
      [mu, -mu],
      [-mu, mu],
    ].map(([left, right]) => stray(a, rise, [left!, right!]));
    expect(Math.max(...strays)).toBeLessThan(1.1 * most);
    expect(Math.max(...strays)).toBeGreaterThan(0.5 * most);
  },
);
