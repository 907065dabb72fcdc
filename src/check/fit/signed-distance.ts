import { type CurvePoint, paramCurve } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { direction, dot, leftNormal, type Point, subtract } from '../../curves/geometry/point.ts';

export interface SignedDistance {
  /** mm, positive to the left of the line. */
  readonly distance: number;
  readonly normal: Point;
}

/** Starting samples of one piece: no piece here turns more than a few times. */
const SAMPLES_PER_PIECE = 12;
const POINTS_PER_PIECE = SAMPLES_PER_PIECE + 1;
/** Between two samples Newton's method takes 3 or 4 steps. */
const MAX_NEWTON_STEPS = 30;

/** Contiguous pieces that run on straight past their two ends. */
export class ExtendedPath {
  private readonly places: readonly ((u: number) => CurvePoint)[];
  /** x and y of each sample in turn: this is the inner loop of a fit. */
  private readonly samples: Float64Array;

  constructor(pieces: readonly Piece[]) {
    this.places = pieces.map(paramCurve);
    this.samples = Float64Array.from(
      this.places.flatMap((place) =>
        Array.from({ length: POINTS_PER_PIECE }, (_, i) => place(i / SAMPLES_PER_PIECE)).flatMap(
          ({ x, y }) => [x, y],
        ),
      ),
    );
  }

  /** Signed distance of a point from the line, at its nearest foot; exact to rounding where the line is smooth. */
  signedDistance(p: Point): SignedDistance {
    const foot = this.footOf(p);
    const normal = leftNormal(direction(foot.angle));
    return { distance: dot(normal, subtract(p, foot)), normal };
  }

  private footOf(p: Point): CurvePoint {
    const nearest = this.nearestSample(p);
    let piece = Math.floor(nearest / POINTS_PER_PIECE);
    let u = (nearest % POINTS_PER_PIECE) / SAMPLES_PER_PIECE;
    for (let i = 0; i < MAX_NEWTON_STEPS; i++) {
      const place = this.places[piece]!(u);
      const step = newtonStepToFoot(place, p);
      const next = u + step;
      if (Math.abs(step) < 4 * Number.EPSILON) break;
      if (next < 0 && u === 0 && piece > 0) [piece, u] = [piece - 1, 1];
      else if (next > 1 && u === 1 && piece < this.places.length - 1) [piece, u] = [piece + 1, 0];
      else if ((next < 0 && u === 0) || (next > 1 && u === 1)) break;
      else u = Math.min(Math.max(next, 0), 1);
    }
    return this.places[piece]!(u);
  }

  private nearestSample({ x, y }: Point): number {
    let [nearest, least] = [0, Number.POSITIVE_INFINITY];
    for (let i = 0; i < this.samples.length; i += 2) {
      const [dx, dy] = [this.samples[i]! - x, this.samples[i + 1]! - y];
      const far = dx * dx + dy * dy;
      if (far < least) [nearest, least] = [i / 2, far];
    }
    return nearest;
  }
}

function newtonStepToFoot({ x, y, angle, curvature, speed }: CurvePoint, p: Point): number {
  const way = direction(angle);
  const out = subtract(p, { x, y });
  const bend = 1 - curvature * dot(leftNormal(way), out);
  // Past the center of curvature the distance is greatest, not least: step as if the line were straight.
  return dot(way, out) / (speed * Math.max(bend, 0.25));
}
