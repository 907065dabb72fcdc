import { looksAlong } from '../geometry/adaptive-sampling.ts';
import { along, type Place } from '../geometry/evaluate.ts';
import type { Piece } from '../geometry/pieces/piece.ts';
import { distance, type Point } from '../geometry/point.ts';

/** A place on a curve with its tangent's angle, radians. */
export interface Spot extends Point {
  readonly angle: number;
}

/** Spots along one fitted arc, about: ends chosen among them cost 1/50 of its length at most. */
export const SPOTS_AN_ARC = 48;

/**
 * An arc strays by κ′h³/(72√3) off a curve whose curvature changes by κ′ a millimetre: the cubic
 * κ′/6·s·(s − h/2)·(s − h) at its largest.
 */
const STRAY = 72 * Math.sqrt(3);

/** Steps in which a run is looked over for how its curvature changes, and the fewest for one piece of it. */
const LOOKS = 64;
const LEAST_LOOKS = 4;

/** Spots in one step at most, so that a slip of the tolerance does not fill the memory. */
const MOST_SPOTS = 1000;

/**
 * Places along a smooth run of pieces, the closer together the sooner its curvature changes: arcs within
 * `tolerance` (mm) of it span SPOTS_AN_ARC or so of them wherever they lie.
 */
export function spotsAlong(pieces: readonly Piece[], tolerance: number): Spot[] {
  const looks = Math.max(LEAST_LOOKS, Math.ceil(LOOKS / pieces.length));
  const steps = looks * pieces.length;
  const spots: Spot[] = [];
  for (const piece of pieces) {
    const at = along(piece);
    const [first, ...next] = looksAlong(at, looks);
    if (spots.length === 0) spots.push(spotOf(first!));
    let from = first!;
    for (const to of next) {
      const wanted = Math.ceil((arcsBetween(from, to, tolerance) + 1 / steps) * SPOTS_AN_ARC);
      const count = Math.min(MOST_SPOTS, wanted);
      for (let k = 1; k <= count; k++) spots.push(spotOf(at(from.u + ((to.u - from.u) * k) / count)));
      from = to;
    }
  }
  return spots;
}

const spotOf = ({ x, y, angle }: Place): Spot => ({ x, y, angle });

/** How many arcs a short stretch takes, about. */
function arcsBetween(a: Place, b: Place, tolerance: number): number {
  const change = Math.abs(b.curvature - a.curvature);
  return Math.cbrt((change * distance(a, b) ** 2) / (STRAY * tolerance));
}
