import { type BulgedArc, offCircle } from './biarc.ts';
import { cross, dot, type Point, subtract } from './point.ts';

/** An eighth of a turn either way of an arc's middle: what lies beside such an arc is nearest to it, not to its far side. */
const BULGE_MOST = Math.tan(Math.PI / 8);

/** Spots looked at beside one or two arcs. */
const LOOKS = 48;

/**
 * An arc's error is a cubic of its length. Half a step off its extreme, 1/48 of an arc, it is smaller by
 * 1.73/2·(1/48)²/0.0481 = 0.8 %; where an arc leans, by a little more.
 */
const KEPT_BACK = 0.985;

/** Whether one arc or two in a row lie within the tolerance of the spots from one to another. */
export type ArcTrial = (arcs: readonly BulgedArc[], from: number, to: number) => boolean;

export function trialOf(spots: readonly Point[], tolerance: number): ArcTrial {
  const most = tolerance * KEPT_BACK;
  return (arcs, from, to) => {
    const [one, other] = arcs;
    if (!one || arcs.some(({ bulge }) => !(Math.abs(bulge) <= BULGE_MOST))) return false;
    const offOne = offCircle(one);
    const offOther = other ? offCircle(other) : offOne;
    const { x, y } = one.to;
    const way = subtract((other ?? one).to, one.from);
    const stride = Math.max(1, Math.floor((to - from) / LOOKS));
    for (let i = from + 1; i < to; i += stride) {
      const spot = spots[i]!;
      const off = (spot.x - x) * way.x + (spot.y - y) * way.y > 0 ? offOther(spot) : offOne(spot);
      if (!(Math.abs(off) <= most)) return false;
    }
    return true;
  };
}

/** The arc from one spot to another through the one half-way. */
export function flattestThrough(spots: readonly Point[], from: number, to: number): BulgedArc {
  const [a, b, c] = [spots[from]!, spots[(from + to) >> 1]!, spots[to]!];
  const [ab, bc] = [subtract(b, a), subtract(c, b)];
  // The two chords meet at half the sweep.
  return { from: a, to: c, bulge: Math.tan(Math.atan2(cross(ab, bc), dot(ab, bc)) / 2) };
}
