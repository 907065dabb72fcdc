import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { direction, dot, leftNormal, type Point, subtract } from '../../curves/geometry/point.ts';
import { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';

export interface SignedDistance {
  /** mm, positive to the left of the line. */
  readonly distance: number;
  readonly normal: Point;
}

/** Segments of one piece: a fit builds many trial curves and measures a few readings on each. */
const SEGMENTS_PER_PIECE = 8;

/** Contiguous pieces that run on straight past their two ends. */
export class ExtendedPath {
  private readonly polyline: PolylineBvh;

  constructor(pieces: readonly Piece[]) {
    this.polyline = new PolylineBvh(pieces, SEGMENTS_PER_PIECE);
  }

  /** Signed distance of a point from the line, at its nearest foot; exact to rounding where the line is smooth. */
  signedDistance(p: Point): SignedDistance {
    const foot = this.polyline.closestPoint(p).at;
    const normal = leftNormal(direction(foot.angle));
    return { distance: dot(normal, subtract(p, foot)), normal };
  }
}
