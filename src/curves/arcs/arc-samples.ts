import { sampleAdaptively } from '../geometry/adaptive-sampling.ts';
import { type CurvePoint, paramCurve } from '../geometry/evaluate.ts';
import type { Piece } from '../geometry/pieces/piece.ts';
import { distance, type Point } from '../geometry/point.ts';

/** A place on a curve with its tangent's angle, radians. */
export interface ArcSample extends Point {
  readonly angle: number;
}

/** Spots along one fitted arc, about: ends chosen among them cost 1/50 of its length at most. */
export const SAMPLES_PER_ARC = 48;

/**
 * An arc strays by κ′h³/(72√3) off a curve whose curvature changes by κ′ a millimetre: the cubic
 * κ′/6·s·(s − h/2)·(s − h) at its largest.
 */
const ARC_ERROR_DIVISOR = 72 * Math.sqrt(3);

/** Steps in which a run is looked over for how its curvature changes, and the fewest for one piece of it. */
const STEPS_PER_RUN = 64;
const MIN_STEPS = 4;

/** Spots in one step at most, so that a slip of the tolerance does not fill the memory. */
const MAX_SAMPLES_PER_STEP = 1000;

/**
 * Places along a smooth run of pieces, the closer together the sooner its curvature changes: arcs within
 * `tolerance` (mm) of it span SPOTS_AN_ARC or so of them wherever they lie.
 */
export function sampleForArcs(pieces: readonly Piece[], tolerance: number): ArcSample[] {
  const looks = Math.max(MIN_STEPS, Math.ceil(STEPS_PER_RUN / pieces.length));
  const steps = looks * pieces.length;
  const spots: ArcSample[] = [];
  for (const piece of pieces) {
    const at = paramCurve(piece);
    const [first, ...next] = sampleAdaptively(at, looks);
    if (spots.length === 0) spots.push(toArcSample(first!));
    let from = first!;
    for (const to of next) {
      const wanted = Math.ceil((arcsBetween(from, to, tolerance) + 1 / steps) * SAMPLES_PER_ARC);
      const count = Math.min(MAX_SAMPLES_PER_STEP, wanted);
      for (let k = 1; k <= count; k++) spots.push(toArcSample(at(from.u + ((to.u - from.u) * k) / count)));
      from = to;
    }
  }
  return spots;
}

const toArcSample = ({ x, y, angle }: CurvePoint): ArcSample => ({ x, y, angle });

/** How many arcs a short stretch takes, about. */
function arcsBetween(a: CurvePoint, b: CurvePoint, tolerance: number): number {
  const change = Math.abs(b.curvature - a.curvature);
  return Math.cbrt((change * distance(a, b) ** 2) / (ARC_ERROR_DIVISOR * tolerance));
}
