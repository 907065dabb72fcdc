import { closestPoint } from '../../curves/geometry/closest-point.ts';
import { paramCurve } from '../../curves/geometry/evaluate.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';

/**
 * How far a part may be off its mirror image and still be printed as one half, mm: a pencil line is
 * 0.3 mm wide, so a third of it is not seen when the pattern is flipped, and lengths rounded to a rule
 * (1/64 in is 0.4 mm) on one side only are.
 */
export const SYMMETRY_MM = 0.1;

/** Places taken on each segment: on a 1 m curve one each 16 mm, where a kink of SYMMETRY_MM is not missed. */
const SAMPLES_PER_SEGMENT = 64;

/** How far an edge is off the mirror image of itself about a station at most, and where, mm. */
export function maxAsymmetry(path: readonly Segment[], station: number): { off: number; at: Point } {
  const segments = path.map(paramCurve);
  const places = path.flatMap((segment) => {
    const at = paramCurve(segment);
    return Array.from({ length: SAMPLES_PER_SEGMENT + 1 }, (_, i) => at(i / SAMPLES_PER_SEGMENT));
  });
  return places
    .map(({ x, y }) => ({ off: closestPoint(segments, { x: 2 * station - x, y }).far, at: { x, y } }))
    .reduce((worst, one) => (one.off > worst.off ? one : worst));
}
