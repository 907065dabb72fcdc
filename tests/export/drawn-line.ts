import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../src/curves/geometry/point.ts';

/** A line as stretches end to end, each by a parameter from 0 to 1: as a reader found it, or as it is meant. */
export type DrawnLine = readonly ((u: number) => Point)[];

export const meant = (pieces: readonly Piece[]): DrawnLine => pieces.map((piece) => paramCurve(piece));

/** Looks at each stretch of the line that is measured to; the nearest are refined between their neighbours. */
const LOOKS = 32;

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
  const looks = line.map(looksAt);
  return places.map((place) => distanceTo(looks, place));
}

interface Look {
  readonly at: (u: number) => Point;
  readonly u: number;
  readonly spot: Point;
  /** To the farther of its neighbours, mm: no nearer foot than this lies between them, as they turn little. */
  readonly reach: number;
}

function looksAt(at: (u: number) => Point): Look[] {
  const spots = Array.from({ length: LOOKS + 1 }, (_, i) => ({ ...at(i / LOOKS) }));
  return spots.map((spot, i) => {
    const beside = [spots[i - 1] ?? spot, spots[i + 1] ?? spot];
    return { at, u: i / LOOKS, spot, reach: Math.max(...beside.map((one) => distance(spot, one))) };
  });
}

/** The nearest look is refined, then those that may hold a nearer foot: where two lines meet sharply it is at another. */
function distanceTo(stretches: readonly (readonly Look[])[], place: Point): number {
  const seen = stretches.flatMap((looks) => {
    const off = looks.map(({ spot }) => distance(spot, place));
    const isLeast = (i: number): boolean =>
      off[i]! <= (off[i - 1] ?? off[i]!) && off[i]! <= (off[i + 1] ?? off[i]!);
    return looks.map((look, i) => ({ look, off: off[i]! })).filter((_, i) => isLeast(i));
  });
  const nearest = seen.reduce((a, b) => (b.off < a.off ? b : a));
  const first = nearIn(nearest.look, place);
  const others = seen.filter(({ look, off }) => off - look.reach < first);
  return others.reduce((least, { look }) => Math.min(least, nearIn(look, place)), first);
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
