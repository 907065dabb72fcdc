import type { Piece, Segment } from './piece.ts';
import type { Point } from './point.ts';

export type CurveKind = 'line' | 'arc' | 'batten' | 'bow' | 'spline' | 'ellipse';

/** One run of an edge: the exact curve, and the path that the writers draw, within FIT_MM of it. */
export interface Curve {
  readonly kind: CurveKind;
  readonly from: Point;
  readonly to: Point;
  /** Where the strip is nailed or the spline is pinned, ends included; empty for lines, arcs and ellipses. */
  readonly pins: readonly Point[];
  readonly exact: readonly Piece[];
  readonly path: readonly Segment[];
}

/** The smallest upright rectangle round something, mm. */
export interface Box {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}
