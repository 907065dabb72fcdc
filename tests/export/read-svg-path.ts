import { distance, lerp, type Point, point } from '../../src/curves/geometry/point.ts';

/** One command of path data, read back: its letter, and its places by a parameter from 0 to 1, y up. */
export interface ReadStep {
  readonly letter: string;
  readonly at: (u: number) => Point;
}

const NUMBERS: Readonly<Record<string, number>> = { M: 2, L: 2, C: 6, A: 7, Z: 0 };

/** Path data of the commands M, L, C, A and Z, absolute, read as the SVG recommendation says. */
export function readPath(data: string, height: number): ReadStep[] {
  const steps: ReadStep[] = [];
  let [first, last]: [Point | undefined, Point] = [undefined, point(0, 0)];
  for (const [all, letter, rest] of data.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const numbers = rest!.trim() === '' ? [] : rest!.trim().split(/[ ,]+/).map(Number);
    if (numbers.length !== NUMBERS[letter!] || numbers.some(Number.isNaN))
      throw new Error(`path data: ${all}`);
    const up = (i: number): Point => point(numbers[i]!, height - numbers[i + 1]!);
    const to: Point = letter === 'Z' ? first! : up(numbers.length - 2);
    if (letter === 'M') first = to;
    else steps.push({ letter: letter!, at: placesOf(letter!, last, to, numbers, up) });
    last = to;
  }
  return steps;
}

function placesOf(
  letter: string,
  from: Point,
  to: Point,
  numbers: readonly number[],
  up: (i: number) => Point,
): (u: number) => Point {
  if (letter === 'C') return (u) => casteljau([from, up(0), up(2), to], u);
  if (letter !== 'A') return (u) => lerp(from, to, u);
  const [radius, other, turn, large, clockwise] = numbers as [number, number, number, number, number];
  if (radius !== other || turn !== 0 || large !== 0)
    throw new Error('an arc of a circle, the lesser, is expected');
  return circular(from, to, radius, clockwise === 1);
}

const casteljau = (points: readonly Point[], u: number): Point =>
  points.length === 1
    ? points[0]!
    : casteljau(
        points.slice(1).map((p, i) => lerp(points[i]!, p, u)),
        u,
      );

/**
 * The lesser arc between two points. A radius too small for them grows until it fits, one of 0 leaves a
 * straight line (Scalable Vector Graphics 2, §9.5.1: out-of-range elliptical arc parameters).
 */
function circular(from: Point, to: Point, asked: number, clockwise: boolean): (u: number) => Point {
  const chord = distance(from, to);
  if (asked === 0 || chord === 0) return (u) => lerp(from, to, u);
  const radius = Math.max(asked, chord / 2);
  // The middle of the circle lies to the left of the way when it is gone round counter-clockwise.
  const aside = Math.sqrt(Math.max(0, radius ** 2 - (chord / 2) ** 2)) * (clockwise ? -1 : 1);
  const middle = lerp(from, to, 0.5);
  const centre = point(
    middle.x - (aside * (to.y - from.y)) / chord,
    middle.y + (aside * (to.x - from.x)) / chord,
  );
  const start = Math.atan2(from.y - centre.y, from.x - centre.x);
  const sweep = 2 * Math.asin(Math.min(1, chord / 2 / radius)) * (clockwise ? -1 : 1);
  return (u) =>
    point(centre.x + radius * Math.cos(start + sweep * u), centre.y + radius * Math.sin(start + sweep * u));
}
