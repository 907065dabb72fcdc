import type { Point } from './point.ts';

/** What a path is made of once it is fitted: the shapes every writer can draw. */
export type Segment = LineSegment | ArcSegment | CubicSegment;

/** What an exact curve is made of. */
export type Piece = Segment | ElasticaSegment;

export interface LineSegment {
  readonly type: 'line';
  readonly from: Point;
  readonly to: Point;
}

/** Part of a circle. `sweep` is counter-clockwise when positive, radians, never 0. */
export interface ArcSegment {
  readonly type: 'arc';
  readonly centre: Point;
  readonly radius: number;
  readonly start: number;
  readonly sweep: number;
}

/** A cubic Bézier by its four control points. */
export interface CubicSegment {
  readonly type: 'cubic';
  readonly controls: readonly [Point, Point, Point, Point];
}

/**
 * A stretch of bent strip between two pins: κ″ + κ³/2 = 0 along its length, from its start values.
 * `angle` of the tangent (rad), `curvature` (1/mm, positive turning left), `curvatureRate` (1/mm²).
 */
export interface ElasticaSegment {
  readonly type: 'elastica';
  readonly from: Point;
  readonly angle: number;
  readonly curvature: number;
  readonly curvatureRate: number;
  readonly length: number;
}
