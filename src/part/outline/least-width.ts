import type { CurvePoint } from '../../curves/geometry/evaluate.ts';
import { direction, distance, dot, lerp, type Point, subtract } from '../../curves/geometry/point.ts';
import type { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { rootBetween } from '../../curves/numeric/roots-and-minima.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';

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
}

/** Places along the first edge: in all, for each piece of the other edge (each may come near once more), on each piece. */
const SAMPLE_COUNTS = { all: 64, forEach: 8, onEach: 16 } as const;

/** No stretch is searched for a smaller gain. */
const MIN_GAIN_MM = 1e-6;

/** To 1e-4 mm of the exact curves, 1e-6 mm where a dip of the width is wider than the way between two samples. */
export function findLeastWidth(lower: PolylineBvh, upper: PolylineBvh): LeastWidth {
  let best = widthAt(firstOf(lower.evaluators)(0), upper);
  const take = (one: WidthSample): void => {
    if (one.width < best.width) best = one;
  };
  const dips: [low: number, high: number, at: (u: number) => WidthSample, least: number][] = [];
  const length = lower.lengths.reduce((a, b) => a + b);
  const all = Math.max(SAMPLE_COUNTS.all, SAMPLE_COUNTS.forEach * upper.evaluators.length);
  for (const [piece, on] of lower.evaluators.entries()) {
    const count = Math.max(SAMPLE_COUNTS.onEach, Math.ceil((all * itemAt(lower.lengths, piece)) / length));
    const at = (u: number): WidthSample => widthAt(on(u), upper);
    let before = at(0);
    take(before);
    for (let i = 1; i <= count; i++) {
      const place = on(i / count);
      const next = widthAt(place, upper, before.width + distance(place, before.from));
      take(next);
      if (before.growth < 0 && next.growth > 0)
        dips.push([(i - 1) / count, i / count, at, lowerBound(before, next)]);
      before = next;
    }
  }
  // A corner of the other edge may stand nearer than any place taken.
  for (const on of upper.evaluators) for (const u of [0, 1]) take(widthAt(on(u), lower));
  for (const [low, high, at, least] of dips) {
    if (least > best.width - MIN_GAIN_MM) continue;
    const u = rootBetween((v) => at(v).growth, low, high);
    if (u !== undefined) take(at(u));
  }
  const { from, to, width } = best;
  return { width, at: lerp(from, to, 0.5) };
}

/** What the width cannot go below in a dip between two places: its slopes are steepest there. */
const lowerBound = (a: WidthSample, b: WidthSample): number => {
  const step = distance(a.from, b.from);
  return Math.max(a.width + a.growth * step, b.width - b.growth * step);
};

function widthAt(from: CurvePoint, edge: PolylineBvh, within?: number): WidthSample {
  const { at: to, distance: width } = edge.closestPoint(from, within);
  const growth = width === 0 ? 0 : dot(subtract(from, to), direction(from.angle)) / width;
  return { from, to, width, growth };
}

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
