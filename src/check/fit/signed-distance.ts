import { along, type Place } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { direction, dot, leftOf, type Point, subtract } from '../../curves/geometry/point.ts';

/** Where a point lies off a line, measured square to it. */
export interface SquareOff {
  /** mm; positive to the left of the line. */
  readonly distance: number;
  /** The line's left normal at the foot. */
  readonly normal: Point;
}

/** Samples of one piece to start from: no piece of ours turns more than a few times. */
const SAMPLES = 12;
const PER_PIECE = SAMPLES + 1;
/** Newton steps to the foot; between two samples it takes 3 or 4. */
const MOST_STEPS = 30;

/** Contiguous pieces as a line to measure square off; past its two ends it runs on straight. */
export class Line {
  private readonly places: readonly ((u: number) => Place)[];
  /** x and y of every sample in turn: this is the inner loop of a fit. */
  private readonly samples: Float64Array;

  constructor(pieces: readonly Piece[]) {
    this.places = pieces.map(along);
    this.samples = Float64Array.from(
      this.places.flatMap((place) =>
        Array.from({ length: PER_PIECE }, (_, i) => place(i / SAMPLES)).flatMap(({ x, y }) => [x, y]),
      ),
    );
  }

  /** How far a point lies off the line, at its nearest foot. Exact to rounding where the line is smooth. */
  squareOff(p: Point): SquareOff {
    const foot = this.footOf(p);
    const normal = leftOf(direction(foot.angle));
    return { distance: dot(normal, subtract(p, foot)), normal };
  }

  private footOf(p: Point): Place {
    const nearest = this.nearestSample(p);
    let piece = Math.floor(nearest / PER_PIECE);
    let u = (nearest % PER_PIECE) / SAMPLES;
    for (let i = 0; i < MOST_STEPS; i++) {
      const place = this.places[piece]!(u);
      const step = stepToFoot(place, p);
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

/** Newton's step of u to where the tangent is square to the way to p. */
function stepToFoot({ x, y, angle, curvature, speed }: Place, p: Point): number {
  const way = direction(angle);
  const out = subtract(p, { x, y });
  const bend = 1 - curvature * dot(leftOf(way), out);
  // Past the centre of curvature the distance is greatest, not least: go on as if straight.
  return dot(way, out) / (speed * Math.max(bend, 0.25));
}
