import type { Point } from '../point.ts';
import { JOIN_MM } from '../tolerance.ts';

/** What a path is made of once it is fitted: the shapes that every writer can draw. */
export type Segment = LineSegment | ArcSegment | CubicSegment;

/** What an exact curve is made of. */
export type Piece = Segment | ElasticaSegment | TaperedSegment | EllipseSegment;

export const isSegment = (piece: Piece): piece is Segment =>
  piece.type === 'line' || piece.type === 'arc' || piece.type === 'cubic';

/** Whether a piece of an edge is a shoulder: a straight step square to the reference line, at one station. */
export const isShoulder = (piece: Piece): piece is LineSegment =>
  piece.type === 'line' && Math.abs(piece.to.x - piece.from.x) <= JOIN_MM;

export interface LineSegment {
  readonly type: 'line';
  readonly from: Point;
  readonly to: Point;
}

/** Part of a circle. `sweep` is counterclockwise when positive, radians, never 0. */
export interface ArcSegment {
  readonly type: 'arc';
  readonly centre: Point;
  readonly radius: number;
  readonly start: number;
  readonly sweep: number;
}

export interface CubicSegment {
  readonly type: 'cubic';
  readonly controls: readonly [Point, Point, Point, Point];
}

/** κ″ + κ³/2 + thrust·κ = 0 from its start: `angle` (rad), `curvature` (1/mm, left > 0), `curvatureRate` (1/mm²). */
export interface ElasticaSegment {
  readonly type: 'elastica';
  readonly from: Point;
  readonly angle: number;
  readonly curvature: number;
  readonly curvatureRate: number;
  /** Push along the strip where it is not bent, per its stiffness, 1/mm². Absent where it slides freely. */
  readonly thrust?: number;
  readonly length: number;
}

/** t is linear, θ′ = moment/t³, moment′ = force across. Times Young's modulus times width/12 they are N·mm and N. */
export interface TaperedSegment {
  readonly type: 'tapered';
  readonly from: Point;
  readonly angle: number;
  /** Curvature × t³ at the start, mm². */
  readonly moment: number;
  /** The push of all pins up to the start of this stretch, mm. */
  readonly force: Point;
  readonly thickness: readonly [start: number, end: number];
  readonly length: number;
}

/** Half an ellipse on its chord; `rise` positive to the left from start to end, never 0. */
export interface EllipseSegment {
  readonly type: 'ellipse';
  readonly from: Point;
  readonly to: Point;
  readonly rise: number;
}
