import { along } from '../../src/curves/along.ts';
import type { Piece } from '../../src/curves/piece.ts';
import { distance, type Point } from '../../src/curves/point.ts';

/** A line as stretches end to end, each by a parameter from 0 to 1: as a reader found it, or as it is meant. */
export type DrawnLine = readonly ((u: number) => Point)[];

export const meant = (pieces: readonly Piece[]): DrawnLine => pieces.map((piece) => along(piece));

/** Looks at each stretch of the line that is measured to; the nearest is refined between its neighbours. */
const LOOKS = 32;

/** Two looks this near are at the same place, mm. */
const SAME_MM = 1e-4;

/** 0.618^34 = 8e-8 of two looks: the foot of a place lies nowhere near enough aside to lengthen its distance. */
const GOLDEN_STEPS = 34;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

export const placesOn = (line: DrawnLine, each: number): Point[] =>
  line.flatMap((at) => Array.from({ length: each + 1 }, (_, i) => at(i / each)));

/** How far the farthest of some places lies from a line, mm. */
export const farthestFrom = (line: DrawnLine, places: readonly Point[]): number =>
  Math.max(...distancesFrom(line, places));

/** How far some places lie from a line, mm: a search of its own. */
export function distancesFrom(line: DrawnLine, places: readonly Point[]): number[] {
  const looks = line.flatMap((at) =>
    Array.from({ length: LOOKS + 1 }, (_, i) => ({ at, u: i / LOOKS, ...pick(at(i / LOOKS)) })),
  );
  return places.map((place) => distanceTo(looks, place));
}

const pick = ({ x, y }: Point): Point => ({ x, y });

interface Look extends Point {
  readonly at: (u: number) => Point;
  readonly u: number;
}

function distanceTo(looks: readonly Look[], place: Point): number {
  const off = looks.map((look) => (look.x - place.x) ** 2 + (look.y - place.y) ** 2);
  const least = Math.sqrt(off.reduce((a, b) => Math.min(a, b)));
  // The end of a stretch is the start of the next: the foot may lie on either.
  const near = looks.filter((_, i) => Math.sqrt(off[i]!) <= least + SAME_MM);
  return Math.min(...near.map((look) => nearIn(look, place)));
}

function nearIn({ at, u }: Look, place: Point): number {
  let [low, high] = [Math.max(0, u - 1 / LOOKS), Math.min(1, u + 1 / LOOKS)];
  const off = (share: number): number => distance(at(share), place);
  for (let i = 0; i < GOLDEN_STEPS; i++) {
    const [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (off(a) < off(b)) high = b;
    else low = a;
  }
  return Math.min(off(u), off((low + high) / 2));
}

/** The farthest either of two lines lies from the other, mm. */
export const apart = (one: DrawnLine, other: DrawnLine, each = 9): number =>
  Math.max(farthestFrom(other, placesOn(one, each)), farthestFrom(one, placesOn(other, each)));
