import { itemAt } from '../../units/checked.ts';
import { cross, direction, dot, type Point, subtract, turnBetween } from '../geometry/point.ts';
import type { ArcSample } from './arc-samples.ts';
import { type BulgedArc, signedDistanceToCircle, tangentAt } from './biarc.ts';

/** An eighth of a turn either side of its middle: a point beside such an arc is nearest to it, not to its far side. */
const MAX_BULGE = Math.tan(Math.PI / 8);

const MAX_SAMPLES = 48;

/** Half a step off the extreme of an arc's cubic error it is smaller by 1.73/2·(1/48)²/0.0481 = 0.8%, or a little more. */
const SAMPLING_MARGIN = 0.985;

/** A gap over this share of the arcs' length, as at a sharp turn, leaves this share of the tolerance within it. */
const SPARSE_GAP = 1 / 8;
const SPARSE_TOLERANCE = 1 / 8;

export type ArcTest = (arcs: readonly BulgedArc[], from: number, to: number) => boolean;

/** Tests one arc or two in a row against the samples. */
export function withinTolerance(spots: readonly ArcSample[], tolerance: number): ArcTest {
  const most = tolerance * SAMPLING_MARGIN;
  return (arcs, from, to) => {
    const [one, other] = arcs;
    if (!one || arcs.some(({ bulge }) => !(Math.abs(bulge) <= MAX_BULGE))) return false;
    const offOne = signedDistanceToCircle(one);
    const offOther = other ? signedDistanceToCircle(other) : offOne;
    const { x, y } = one.to;
    const way = subtract((other ?? one).to, one.from);
    const far = dot(way, way) * SPARSE_GAP ** 2;
    const stride = Math.max(1, Math.floor((to - from) / MAX_SAMPLES));
    const isPast = (spot: Point): boolean => (spot.x - x) * way.x + (spot.y - y) * way.y > 0;
    const strays = (spot: ArcSample, gap: number): boolean =>
      deviationInGap(other && isPast(spot) ? other : one, spot, gap) > most * SPARSE_TOLERANCE;
    let before = itemAt(spots, from);
    for (let i = from + 1; i < to + stride; i += stride) {
      const spot = itemAt(spots, Math.min(i, to));
      const off = i < to ? (isPast(spot) ? offOther : offOne)(spot) : 0; // they end in the last one
      if (!(Math.abs(off) <= most)) return false;
      const gap = (spot.x - before.x) ** 2 + (spot.y - before.y) ** 2;
      if (gap > far && (strays(before, Math.sqrt(gap)) || strays(spot, Math.sqrt(gap)))) return false;
      before = spot;
    }
    return true;
  };
}

/** How far an arc that deviates from the tangent of a sample strays in a gap beside it, mm: u(1 − u) of it. */
function deviationInGap(arc: BulgedArc, spot: ArcSample, gap: number): number {
  const lean = cross(tangentAt(arc, spot), direction(spot.angle));
  return (Math.abs(lean) * gap) / 4;
}

/** The arc from one sample to another through the one halfway. */
export function arcThroughMiddle(spots: readonly Point[], from: number, to: number): BulgedArc {
  const [a, b, c] = [itemAt(spots, from), itemAt(spots, (from + to) >> 1), itemAt(spots, to)];
  // The two chords meet at half the sweep.
  return { from: a, to: c, bulge: Math.tan(turnBetween(a, b, c) / 2) };
}
