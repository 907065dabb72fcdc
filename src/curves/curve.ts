import { pathEnds } from './geometry/evaluate.ts';
import { fitPath } from './geometry/fit-cubics.ts';
import type { Piece, Segment } from './geometry/pieces/piece.ts';
import { type Point, toPoint } from './geometry/point.ts';

/** A parallel of a batten, a bow, a spline or an ellipse is none of these. */
export type CurveKind = 'line' | 'arc' | 'batten' | 'bow' | 'spline' | 'ellipse' | 'parallel';

/** One run of an edge: the exact curve, and the path that the writers draw, within FIT_MM of it. */
export interface Curve {
  /** What it is physically, as the job file names it. */
  readonly kind: CurveKind;
  /** Where the run starts, mm. */
  readonly from: Point;
  /** Where it ends, mm. */
  readonly to: Point;
  /** Where the batten is nailed or the spline is pinned, ends included; empty for lines, arcs and ellipses. */
  readonly pins: readonly Point[];
  /** The curve itself, contiguous, true to rounding. */
  readonly exact: readonly Piece[];
  /** What writers draw: lines, arcs and cubics within FIT_MM of `exact`, contiguous. */
  readonly path: readonly Segment[];
}

export const makeCurve = (run: Omit<Curve, 'path'>): Curve => ({ ...run, path: fitPath(run.exact) });

export function makeCurveFromPath(kind: CurveKind, path: readonly Segment[]): Curve {
  const [start, end] = pathEnds(path);
  return { kind, from: toPoint(start), to: toPoint(end), pins: [], exact: path, path };
}
