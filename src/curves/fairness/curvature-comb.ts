import { itemAt } from '../../units/checked.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { Curve } from '../curve.ts';
import { type CurvePoint, paramCurve, pieceLength } from '../geometry/evaluate.ts';
import type { Piece } from '../geometry/pieces/piece.ts';

export interface Tooth extends CurvePoint {
  /** Length of edge from its start, mm (within 0.1% of its piece). */
  readonly along: number;
  readonly run: number;
  readonly piece: Piece;
  readonly u: number;
}

/** Samples per piece: enough to find every extremum of a strip or a cubic, few enough to draw. */
const TEETH_PER_PIECE = 48;

/** The comb of an edge: uniform in the parameter of each piece, with both sides of every join. */
export function curvatureComb(runs: readonly Curve[]): Tooth[] {
  const comb: Tooth[] = [];
  let start = 0;
  runs.forEach(({ exact }, run) => {
    for (const piece of exact) {
      const at = paramCurve(piece);
      const places = Array.from({ length: TEETH_PER_PIECE + 1 }, (_, i) => at(i / TEETH_PER_PIECE));
      const length = pieceLength(piece);
      const steps = places.map(({ speed }, i) => (i === 0 ? 0 : (itemAt(places, i - 1).speed + speed) / 2));
      const share = length / steps.reduce((sum, step) => sum + step, 0);
      let done = 0;
      places.forEach(({ x, y, angle, curvature, speed }, i) => {
        done += itemAt(steps, i) * share;
        comb.push({ x, y, angle, curvature, speed, along: start + done, run, piece, u: i / TEETH_PER_PIECE });
      });
      start += length;
    }
  });
  return comb;
}

/** A change of curvature smaller than this share of the largest is not a trend: the eye misses it. */
export const RIPPLE = 0.05;

/** A smaller departure from a fair line is not seen, mm: the width of a pencil line. Rounding nails to 1/64 in makes less. */
export const VISIBLE_MM = 0.25;

/** How far a line departs over a length where its curvature swells or slackens by `change` and back, mm: y″ = change·cos. */
export const waveHeight = (change: number, length: number): number => change * (length / (2 * Math.PI)) ** 2;

export const maxCurvature = (teeth: readonly Tooth[]): number =>
  teeth.reduce((peak, { curvature }) => Math.max(peak, Math.abs(curvature)), 0);

/** "straight", or the radius; for places as sharp as a share of `peak` and up. */
export function describeRadius({ curvature }: Tooth, peak: number): (mm: ShowLength) => string {
  const sharpness = Math.abs(curvature);
  return (mm) => (sharpness > RIPPLE * peak ? `a radius of ${mm(1 / sharpness)}` : 'straight');
}
