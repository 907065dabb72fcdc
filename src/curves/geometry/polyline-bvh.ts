import { firstOf, itemAt } from '../../units/checked.ts';
import { newtonRoot, type ValueAndSlope } from '../numeric/roots-and-minima.ts';
import { type CurveSample, sampleAdaptively } from './adaptive-sampling.ts';
import { type Box, boundsOf, inflate, union } from './bounds.ts';
import { type CurvePoint, paramCurve } from './evaluate.ts';
import type { Piece } from './pieces/piece.ts';
import type { Point } from './point.ts';
import { cross, direction, distance, dot, leftNormal, lerp, meetsLine, sideOf, subtract } from './point.ts';

/** Segments of one bent piece: on a 1 m run one each 16 mm, where a furniture curve strays less than 0.1 mm from straight. */
const SEGMENTS_PER_PIECE = 64;
/** Segments in one leaf: fewer boxes cost less than a few segments looked at in vain. */
const LEAF_SIZE = 4;

interface ChordSegment {
  readonly from: CurveSample;
  readonly to: CurveSample;
  readonly leaving: Point;
  readonly arriving: Point;
  readonly piece: number;
  readonly evaluate: (u: number) => CurvePoint;
  /** How far the curve may stray from it, mm. */
  readonly sag: number;
}

/** A box round the curve along neighboring segments; only a leaf holds segments. */
interface BvhNode {
  readonly box: Box;
  readonly halves?: readonly [BvhNode, BvhNode];
  readonly segments: readonly ChordSegment[];
}

export interface ClosestPoint {
  readonly piece: number;
  readonly u: number;
  readonly at: CurvePoint;
  readonly distance: number;
}

/** The rounding of a distance after a few sums of lengths: a share of it, and mm where it is next to nothing. */
const ROUNDING = 1e-9;

/** Pieces as a polyline in a tree of boxes, which finds quickly what lies near a point or crosses a segment. */
export class PolylineBvh {
  readonly segments: readonly ChordSegment[];
  readonly evaluators: readonly ((u: number) => CurvePoint)[];
  /** Of each piece's polyline, mm. */
  readonly lengths: readonly number[];
  private readonly root: BvhNode;

  /** @param count segments of one bent piece; where it turns sharply it gets more */
  constructor(pieces: readonly Piece[], count = SEGMENTS_PER_PIECE) {
    this.evaluators = pieces.map(paramCurve);
    const chains = pieces.map(({ type }, piece) =>
      chordSegments(itemAt(this.evaluators, piece), piece, type === 'line' ? 1 : count),
    );
    this.segments = chains.flat();
    this.lengths = chains.map((chain) => chain.reduce((sum, { from, to }) => sum + distance(from, to), 0));
    this.root = buildTree(this.segments);
  }

  /** By Newton's method on the true pieces. The less `within` (mm, where it must lie), the sooner it is found. */
  closestPoint(to: Point, within = Number.POSITIVE_INFINITY): ClosestPoint {
    const search = new Search(to, within * (1 + ROUNDING) + ROUNDING);
    search.visit(this.root);
    return search.found ?? this.closestPoint(to);
  }

  /** Where the straight way from p to p2 first crosses or touches the polyline, by the polyline's order. */
  firstIntersection(p: Point, p2: Point, counts: (at: Point) => boolean): Point | undefined {
    const way = boundsOf([p, p2]);
    const search = ({ box, halves, segments }: BvhNode): Point | undefined => {
      if (areDisjoint(way, box)) return undefined;
      if (halves) return search(halves[0]) ?? search(halves[1]);
      for (const { from, to } of segments) {
        const at = intersectSegments(p, p2, from, to);
        if (at && counts(at)) return at;
      }
      return undefined;
    };
    return search(this.root);
  }
}

function buildTree(segments: readonly ChordSegment[]): BvhNode {
  if (segments.length <= LEAF_SIZE) {
    const sag = Math.max(...segments.map((segment) => segment.sag));
    return { box: inflate(boundsOf(segments.flatMap(({ from, to }) => [from, to])), sag), segments };
  }
  const middle = segments.length >> 1;
  const halves = [buildTree(segments.slice(0, middle)), buildTree(segments.slice(middle))] as const;
  return { box: union([halves[0].box, halves[1].box]), halves, segments: [] };
}

/** After a Newton step this short, mm, the error is far below rounding. */
const STEP_TOLERANCE_MM = 1e-7;

/** One search for the closest point, the nearer half of the tree first. */
class Search {
  found: ClosestPoint | undefined;

  constructor(
    private readonly to: Point,
    private least: number,
  ) {}

  visit({ box, halves, segments }: BvhNode): void {
    if (!(squaredToBox(this.to, box) < this.least ** 2)) return;
    for (const segment of segments) this.visitSegment(segment);
    if (!halves) return;
    const inOrder = squaredToBox(this.to, halves[0].box) <= squaredToBox(this.to, halves[1].box);
    this.visit(halves[inOrder ? 0 : 1]);
    this.visit(halves[inOrder ? 1 : 0]);
  }

  /** Weighs the place along a segment where the curve runs square to the way to the point, or else an end of it. */
  private visitSegment({ from, to, leaving, arriving, piece, evaluate, sag }: ChordSegment): void {
    const point = this.to;
    const share = shareAlong(from, to, point);
    const [dx, dy] = [from.x + (to.x - from.x) * share - point.x, from.y + (to.y - from.y) * share - point.y];
    if (!(dx * dx + dy * dy < (this.least + sag) ** 2)) return;
    const before = dotFrom(point, from, leaving);
    const after = dotFrom(point, to, arriving);
    if (before < 0 && after > 0) {
      const tolerance = STEP_TOLERANCE_MM / Math.max(from.speed, to.speed);
      const start = from.u + (to.u - from.u) * share;
      const u = newtonRoot((v) => ahead(evaluate(v), point), from.u, to.u, start, tolerance);
      this.weigh(piece, u, evaluate(u));
      return;
    }
    if (before >= 0) this.weigh(piece, from.u, from);
    if (after <= 0) this.weigh(piece, to.u, to);
  }

  private weigh(piece: number, u: number, at: CurvePoint): void {
    const off = distance(at, this.to);
    if (!(off < this.least)) return;
    this.least = off;
    this.found = { piece, u, at, distance: off };
  }
}

/** How far a place lies ahead of a point, mm along its tangent, and how that grows with u. */
function ahead(place: CurvePoint, point: Point): ValueAndSlope {
  const tangent = direction(place.angle);
  const out = subtract(place, point);
  return {
    value: dot(out, tangent),
    slope: place.speed * (1 + place.curvature * dot(out, leftNormal(tangent))),
  };
}

const dotFrom = (point: Point, place: Point, tangent: Point): number =>
  (place.x - point.x) * tangent.x + (place.y - point.y) * tangent.y;

function chordSegments(
  evaluate: (u: number) => CurvePoint,
  piece: number,
  count: number,
): readonly ChordSegment[] {
  const samples = sampleAdaptively(evaluate, count);
  let from = firstOf(samples);
  let leaving = direction(from.angle);
  return samples.slice(1).map((to) => {
    const arriving = direction(to.angle);
    const segment = { from, to, leaving, arriving, piece, evaluate, sag: sagOf(from, to, leaving, arriving) };
    [from, leaving] = [to, arriving];
    return segment;
  });
}

/** A parabola that leans by δ at both ends has a sagitta of tan δ/4 of its length; twice that covers two bends. */
function sagOf(from: Point, to: Point, leaving: Point, arriving: Point): number {
  const way = subtract(to, from);
  const [ahead0, ahead1] = [dot(leaving, way), dot(arriving, way)];
  const length = Math.sqrt(dot(way, way));
  if (!(ahead0 > 0 && ahead1 > 0)) return length;
  const leans = Math.abs(cross(leaving, way)) / ahead0 + Math.abs(cross(arriving, way)) / ahead1;
  return length * Math.min(1, leans / 4);
}

const squaredToBox = ({ x, y }: Point, { left, bottom, right, top }: Box): number =>
  Math.max(left - x, x - right, 0) ** 2 + Math.max(bottom - y, y - top, 0) ** 2;

const areDisjoint = (a: Box, b: Box): boolean =>
  a.right < b.left || b.right < a.left || a.top < b.bottom || b.top < a.bottom;

function shareAlong(from: Point, to: Point, p: Point): number {
  const [x, y] = [to.x - from.x, to.y - from.y];
  const share = ((p.x - from.x) * x + (p.y - from.y) * y) / (x * x + y * y);
  return share > 0 ? Math.min(share, 1) : 0;
}

/** Where two straight stretches cross or touch; parallel ones do not. */
function intersectSegments(p: Point, p2: Point, q: Point, q2: Point): Point | undefined {
  const [before, after] = [sideOf(q, q2, p), sideOf(q, q2, p2)];
  if (before === after || Math.sign(before) === Math.sign(after) || !meetsLine(q, q2, p, p2))
    return undefined;
  return lerp(p, p2, before / (before - after));
}
