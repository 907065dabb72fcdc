import { neighbors } from '../../units/checked.ts';
import { sampleAdaptively } from '../geometry/adaptive-sampling.ts';
import { type CurvePoint, paramCurve, pieceStart } from '../geometry/evaluate.ts';
import type { Piece } from '../geometry/pieces/piece.ts';
import { distance } from '../geometry/point.ts';

export type ArcSample = Pick<CurvePoint, 'x' | 'y' | 'angle'>;

/** Samples per fitted arc: ends chosen among them cost at most 1/50 of its length. */
export const SAMPLES_PER_ARC = 48;

/** An arc strays by κ′h³/(72√3), the extreme of κ′/6·s·(s − h/2)·(s − h), where the curvature changes by κ′ per mm. */
const ARC_ERROR_DIVISOR = 72 * Math.sqrt(3);

/** Steps in which the change of curvature of a run is measured, and the fewest for one piece. */
const STEPS_PER_RUN = 64;
const MIN_STEPS = 4;

/** Bounds the samples in one step, so that a mistyped tolerance does not fill the memory. */
const MAX_SAMPLES_PER_STEP = 1000;

/** Spaced so that arcs within `tolerance` (mm) span about the same number of samples everywhere. */
export function sampleForArcs(pieces: readonly Piece[], tolerance: number): ArcSample[] {
  const stepsPerPiece = Math.max(MIN_STEPS, Math.ceil(STEPS_PER_RUN / pieces.length));
  const steps = stepsPerPiece * pieces.length;
  const spots = pieces.slice(0, 1).map((piece) => toArcSample(pieceStart(piece)));
  for (const piece of pieces) {
    const at = paramCurve(piece);
    for (const [from, to] of neighbors(sampleAdaptively(at, stepsPerPiece))) {
      const wanted = Math.ceil((arcsBetween(from, to, tolerance) + 1 / steps) * SAMPLES_PER_ARC);
      const count = Math.min(MAX_SAMPLES_PER_STEP, wanted);
      for (let k = 1; k <= count; k++) spots.push(toArcSample(at(from.u + ((to.u - from.u) * k) / count)));
    }
  }
  return spots;
}

const toArcSample = ({ x, y, angle }: CurvePoint): ArcSample => ({ x, y, angle });

function arcsBetween(a: CurvePoint, b: CurvePoint, tolerance: number): number {
  const change = Math.abs(b.curvature - a.curvature);
  return Math.cbrt((change * distance(a, b) ** 2) / (ARC_ERROR_DIVISOR * tolerance));
}
