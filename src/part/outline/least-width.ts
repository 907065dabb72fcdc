import type { CurvePoint } from '../../curves/geometry/evaluate.ts';
import {
  direction,
  distance,
  dot,
  leftNormal,
  lerp,
  type Point,
  subtract,
} from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { rootBetween } from '../../curves/numeric/roots-and-minima.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
import type { ClosestOnPolyline, PolylineBvh } from './polyline-bvh.ts';

export interface LeastWidth {
  readonly width: number;
  /** Half-way across the narrowest spot. */
  readonly at: Point;
}

interface WidthSample {
  readonly from: CurvePoint;
  readonly to: CurvePoint;
  readonly width: number;
  /** How fast the width grows along the first edge, mm per mm. */
  readonly growth: number;
  /** From the place to the chain of the other edge, mm: the width but for what the chain strays. */
  readonly gap: number;
}

/**
 * Places along the first edge, told apart by which the edges come near each other: so many in all, so many for each
 * piece of the other edge, as between two nails it may come near once more, and so many on each piece at least.
 */
const SAMPLE_COUNTS = { all: 64, forEach: 8, onEach: 16 } as const;

/** No stretch is searched that could make the part narrower by less than this, mm. */
const MIN_GAIN_MM = 1e-6;

/**
 * The least distance between two edges, mm: to 1e-4 mm of the exact curves (1e-6 where a dip of the
 * width is wider than the way between two PLACES).
 */
export function findLeastWidth(lower: PolylineBvh, upper: PolylineBvh): LeastWidth {
  let best: WidthSample | undefined;
  const take = (one: WidthSample): void => {
    if (!best || one.width < best.width) best = one;
  };
  const dips: [low: number, high: number, at: (u: number) => WidthSample, least: number][] = [];
  const [length, all] = [
    sum(lower.lengths),
    Math.max(SAMPLE_COUNTS.all, SAMPLE_COUNTS.forEach * upper.evaluators.length),
  ];
  for (const [piece, on] of lower.evaluators.entries()) {
    const count = Math.max(SAMPLE_COUNTS.onEach, Math.ceil((all * itemAt(lower.lengths, piece)) / length));
    const at = (u: number): WidthSample => widthAt(on(u), upper);
    let before = at(0);
    take(before);
    for (let i = 1; i <= count; i++) {
      const place = on(i / count);
      const next = widthAt(place, upper, before.gap + distance(place, before.from));
      take(next);
      if (before.growth < 0 && next.growth > 0)
        dips.push([(i - 1) / count, i / count, at, lowerBound(before, next)]);
      before = next;
    }
  }
  // A corner of the other edge may stand nearer than any place taken.
  for (const on of upper.evaluators) for (const u of [0, 1]) take(widthAt(on(u), lower));
  for (const [low, high, at, least] of dips) {
    if (least > best!.width - MIN_GAIN_MM) continue;
    const u = rootBetween((v) => at(v).growth, low, high);
    if (u !== undefined) take(at(u));
  }
  const { from, to, width } = best!;
  return { width, at: lerp(from, to, 0.5) };
}

const sum = (lengths: readonly number[]): number => lengths.reduce((a, b) => a + b);

/** What the width cannot go below in a dip between two places: its slopes are steepest there. */
const lowerBound = (a: WidthSample, b: WidthSample): number => {
  const step = distance(a.from, b.from);
  return Math.max(a.width + a.growth * step, b.width - b.growth * step);
};

function widthAt(from: CurvePoint, edge: PolylineBvh, within?: number): WidthSample {
  const nearest = edge.closestPoint(from, within);
  const to = closestOnEdge(from, edge, nearest);
  const width = distance(from, to);
  const growth = width === 0 ? 0 : dot(subtract(from, to), direction(from.angle)) / width;
  return { from, to, width, growth, gap: nearest.gap };
}

/** Newton steps from the chain to the true piece: each doubles the digits, and the chain gives the first three. */
const MAX_STEPS = 8;
/** A step along the edge this short ends them, mm: the width is then good to its square over itself. */
const STEP_TOLERANCE = 1e-7;

/** The place of an edge nearest to a point: what is nearest on its chain, then on its true pieces. */
export function closestOnEdge(to: Point, edge: PolylineBvh, { piece, u }: ClosestOnPolyline): CurvePoint {
  const found = newtonClosest(to, itemAt(edge.evaluators, piece), u);
  // The true foot may lie just past the end of the piece that the chain led to.
  const [near, from] = found.u === 0 ? [piece - 1, 1] : [piece + 1, 0];
  const beyond = found.u === 0 || found.u === 1 ? edge.evaluators[near] : undefined;
  const other = beyond && newtonClosest(to, beyond, from);
  return other && distance(to, other.place) < distance(to, found.place) ? other.place : found.place;
}

/** Newton's method for the place of one piece that stands square off a point, kept on the piece. */
function newtonClosest(
  to: Point,
  on: (u: number) => CurvePoint,
  start: number,
): { u: number; place: CurvePoint } {
  let u = start;
  let place = on(u);
  for (let i = 0; i < MAX_STEPS; i++) {
    const gap = subtract(place, to);
    const along = direction(place.angle);
    const rate = 1 + place.curvature * dot(gap, leftNormal(along));
    const step = -dot(gap, along) / Math.max(rate, MIN_RATE) / place.speed;
    const next = Math.min(Math.max(u + step, 0), 1);
    const moved = Math.abs(next - u) * place.speed;
    u = next;
    place = on(u);
    if (!(moved > STEP_TOLERANCE)) break;
  }
  return { u, place };
}

/** Near the centre of a bend all its places are as near, and a whole Newton step would go astray. */
const MIN_RATE = 0.2;

/** The first place where two edges cross; ends that touch (a pointed part) do not count. */
export function firstCrossing(lower: PolylineBvh, upper: PolylineBvh): Point | undefined {
  const tips = [
    [firstOf(lower.segments).from, firstOf(upper.segments).from],
    [lastOf(lower.segments).to, lastOf(upper.segments).to],
  ] as const;
  const points = tips.filter(([p, q]) => distance(p, q) < JOIN_MM).map(([p]) => p);
  const counts = (at: Point): boolean => !points.some((tip) => distance(tip, at) < JOIN_MM);
  for (const { from, to } of lower.segments) {
    const at = upper.firstIntersection(from, to, counts);
    if (at) return at;
  }
  return undefined;
}

/** The first place where an edge crosses itself: only one that runs back over its stations can. */
export function selfCrossing(chain: PolylineBvh): Point | undefined {
  const { segments } = chain;
  if (segments.every(({ from, to }) => to.x >= from.x)) return undefined;
  for (const { from, to } of segments) {
    const isOwn = (at: Point): boolean => [from, to].some((end) => distance(end, at) < JOIN_MM);
    const at = chain.firstIntersection(from, to, (place) => !isOwn(place));
    if (at) return at;
  }
  return undefined;
}
