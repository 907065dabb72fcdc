import { type Box, boundsOf, union } from '../../curves/geometry/bounds.ts';
import { type CurvePoint, paramCurve } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { cross, distance, type Point, subtract } from '../../curves/geometry/point.ts';

/**
 * Straight links to one bent piece: on a 1 m run one each 16 mm, where a furniture curve strays less
 * than 0.1 mm from straight.
 */
const SEGMENTS_PER_PIECE = 64;
/** Links in one box at the bottom: fewer boxes cost less than a few links looked at in vain. */
const LEAF_SIZE = 4;

/** A run of neighbouring links and the box round them, in halves down to a few links. */
interface BvhNode {
  readonly box: Box;
  readonly first: number;
  readonly last: number;
  readonly halves?: readonly [BvhNode, BvhNode];
}

/** A straight stretch from one place of a piece to the next. */
interface ChordSegment {
  readonly from: CurvePoint;
  readonly to: CurvePoint;
  /** Which piece, and the parameters of both places on it. */
  readonly piece: number;
  readonly start: number;
  readonly end: number;
}

export interface ClosestOnPolyline {
  readonly piece: number;
  readonly u: number;
  readonly gap: number;
}

/** What a distance may be off by after a few sums of lengths: a share of it, and mm where it is next to nothing. */
const ROUNDING = 1e-9;

/** An edge as a chain of straight links, which tells quickly what lies near a point or across its way. */
export class PolylineBvh {
  readonly segments: readonly ChordSegment[];
  readonly evaluators: readonly ((u: number) => CurvePoint)[];
  /** Of each piece, mm. */
  readonly lengths: readonly number[];
  private readonly root: BvhNode;

  constructor(pieces: readonly Piece[]) {
    this.evaluators = pieces.map(paramCurve);
    this.segments = pieces.flatMap(({ type }, piece) =>
      sampleSegments(this.evaluators[piece]!, piece, type === 'line' ? 1 : SEGMENTS_PER_PIECE),
    );
    const lengths = this.evaluators.map(() => 0);
    for (const { piece, from, to } of this.segments) lengths[piece]! += distance(from, to);
    this.lengths = lengths;
    this.root = this.build(0, this.segments.length);
  }

  private build(first: number, last: number): BvhNode {
    if (last - first <= LEAF_SIZE) {
      const box = boundsOf(this.segments.slice(first, last).flatMap(({ from, to }) => [from, to]));
      return { box, first, last };
    }
    const middle = (first + last) >> 1;
    const halves = [this.build(first, middle), this.build(middle, last)] as const;
    return { box: union([halves[0].box, halves[1].box]), first, last, halves };
  }

  /**
   * The place of the chain nearest to a point, by its piece and parameter, and how far off it is, mm. It is
   * known to lie `within` so many mm: the sooner it is found.
   */
  closestPoint(to: Point, within = Number.POSITIVE_INFINITY): ClosestOnPolyline {
    let least = (within * (1 + ROUNDING) + ROUNDING) ** 2;
    let found: ClosestOnPolyline = { piece: 0, u: 0, gap: within };
    const look = ({ box, first, last, halves }: BvhNode): void => {
      if (!(squaredDistanceToBox(to, box) < least)) return;
      if (halves) {
        const [a, b] = halves;
        const inOrder = squaredDistanceToBox(to, a.box) <= squaredDistanceToBox(to, b.box);
        look(inOrder ? a : b);
        look(inOrder ? b : a);
        return;
      }
      for (let i = first; i < last; i++) {
        const link = this.segments[i]!;
        const share = closestParameter(link, to);
        const gap = squaredDistance(
          to,
          link.from.x + (link.to.x - link.from.x) * share,
          link.from.y + (link.to.y - link.from.y) * share,
        );
        if (!(gap < least)) continue;
        least = gap;
        found = {
          piece: link.piece,
          u: link.start + (link.end - link.start) * share,
          gap: Math.sqrt(gap),
        };
      }
    };
    look(this.root);
    return found;
  }

  /** Where the straight way from p to p2 first crosses or touches the chain, by the chain's order. */
  firstIntersection(p: Point, p2: Point, counts: (at: Point) => boolean): Point | undefined {
    const way = boundsOf([p, p2]);
    const look = ({ box, first, last, halves }: BvhNode): Point | undefined => {
      if (areDisjoint(way, box)) return undefined;
      if (halves) return look(halves[0]) ?? look(halves[1]);
      for (let i = first; i < last; i++) {
        const { from, to } = this.segments[i]!;
        const at = intersectSegments(p, p2, from, to);
        if (at && counts(at)) return at;
      }
      return undefined;
    };
    return look(this.root);
  }
}

function sampleSegments(at: (u: number) => CurvePoint, piece: number, count: number): ChordSegment[] {
  const places = Array.from({ length: count + 1 }, (_, i) => at(i / count));
  return places
    .slice(1)
    .map((to, i) => ({ from: places[i]!, to, piece, start: i / count, end: (i + 1) / count }));
}

const squaredDistance = ({ x, y }: Point, x2: number, y2: number): number => (x2 - x) ** 2 + (y2 - y) ** 2;

const squaredDistanceToBox = ({ x, y }: Point, { left, bottom, right, top }: Box): number =>
  Math.max(left - x, x - right, 0) ** 2 + Math.max(bottom - y, y - top, 0) ** 2;

const areDisjoint = (a: Box, b: Box): boolean =>
  a.right < b.left || b.right < a.left || a.top < b.bottom || b.top < a.bottom;

/** The share of a link at which a point stands square off it, or its nearer end. */
function closestParameter({ from, to }: ChordSegment, p: Point): number {
  const x = to.x - from.x;
  const y = to.y - from.y;
  const share = ((p.x - from.x) * x + (p.y - from.y) * y) / (x * x + y * y);
  return share > 0 ? Math.min(share, 1) : 0;
}

/** Where two straight stretches cross or touch; parallel ones do not. */
function intersectSegments(p: Point, p2: Point, q: Point, q2: Point): Point | undefined {
  const d = subtract(p2, p);
  const e = subtract(q2, q);
  const gap = subtract(q, p);
  const determinant = cross(d, e);
  const t = cross(gap, e) / determinant;
  const s = cross(gap, d) / determinant;
  const inside = t >= 0 && t <= 1 && s >= 0 && s <= 1;
  return inside ? { x: p.x + t * d.x, y: p.y + t * d.y } : undefined;
}
