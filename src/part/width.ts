import { along, type Place } from '../curves/along.ts';
import type { Piece } from '../curves/piece.ts';
import { cross, distance, type Point, subtract } from '../curves/point.ts';
import { leastOnUnit } from '../curves/search.ts';
import { JOIN_MM } from '../curves/tolerance.ts';

/**
 * Places taken from each piece in the search for the narrowest spot: on a 1 m run one each 16 mm,
 * where a furniture curve strays less than 0.1 mm from straight.
 */
const SAMPLES = 64;

/** An edge by one running parameter: whole part = piece, fraction = place on it. */
class Walk {
  readonly places: readonly Place[];
  private readonly on: readonly ((u: number) => Place)[];

  constructor(pieces: readonly Piece[]) {
    this.on = pieces.map(along);
    const count = pieces.length * SAMPLES;
    this.places = Array.from({ length: count + 1 }, (_, i) => this.at(i / SAMPLES));
  }

  at(t: number): Place {
    const i = Math.min(Math.max(Math.floor(t), 0), this.on.length - 1);
    return this.on[i]!(Math.min(Math.max(t - i, 0), 1));
  }
}

export interface Narrowest {
  readonly width: number;
  /** Half-way across the narrowest spot. */
  readonly at: Point;
}

/** Rounds of letting each side's point settle opposite the other's; each halves what is left or better. */
const ROUNDS = 12;

/** The least distance between two edges, mm, to 1e-4 mm of the exact curves. */
export function narrowest(lower: readonly Piece[], upper: readonly Piece[]): Narrowest {
  const [a, b] = [new Walk(lower), new Walk(upper)];
  let best = { i: 0, j: 0, width: Number.POSITIVE_INFINITY };
  a.places.forEach((p, i) => {
    b.places.forEach((q, j) => {
      const width = distance(p, q);
      if (width < best.width) best = { i, j, width };
    });
  });
  let [t, s] = [best.i / SAMPLES, best.j / SAMPLES];
  for (let round = 0; round < ROUNDS; round++) {
    t = settle(a, t, b.at(s));
    s = settle(b, s, a.at(t));
  }
  const [p, q] = [a.at(t), b.at(s)];
  const width = Math.min(best.width, distance(p, q));
  return { width, at: { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 } };
}

/** The place nearest to a point, within one sample of where the search stands. */
function settle(walk: Walk, t: number, to: Point): number {
  const reach = 1 / SAMPLES;
  const near = (u: number): number => t + (2 * u - 1) * reach;
  return near(leastOnUnit((u) => distance(walk.at(near(u)), to), 2).at);
}

/**
 * The first station where two edges cross, undefined where they keep apart. Ends that touch (a pointed
 * part) do not count.
 */
export function crossing(lower: readonly Piece[], upper: readonly Piece[]): Point | undefined {
  const [a, b] = [new Walk(lower).places, new Walk(upper).places];
  const tips = [
    [a[0]!, b[0]!],
    [a.at(-1)!, b.at(-1)!],
  ] as const;
  const points = tips.filter(([p, q]) => distance(p, q) < JOIN_MM).map(([p]) => p);
  for (let i = 1; i < a.length; i++)
    for (let j = 1; j < b.length; j++) {
      const at = meeting(a[i - 1]!, a[i]!, b[j - 1]!, b[j]!);
      if (at && !points.some((tip) => distance(tip, at) < JOIN_MM)) return at;
    }
  return undefined;
}

/** Where two straight stretches cross or touch; parallel ones do not. */
function meeting(p: Point, p2: Point, q: Point, q2: Point): Point | undefined {
  if (Math.max(p.x, p2.x) < Math.min(q.x, q2.x) || Math.max(q.x, q2.x) < Math.min(p.x, p2.x))
    return undefined;
  const [d, e, gap] = [subtract(p2, p), subtract(q2, q), subtract(q, p)];
  const determinant = cross(d, e);
  const [t, s] = [cross(gap, e) / determinant, cross(gap, d) / determinant];
  const inside = t >= 0 && t <= 1 && s >= 0 && s <= 1;
  return inside ? { x: p.x + t * d.x, y: p.y + t * d.y } : undefined;
}
