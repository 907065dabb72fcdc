import type { Curve } from '../../curves/curve.ts';
import { piecesLength, pointAt, segmentEnd, segmentStart } from '../../curves/geometry/evaluate.ts';
import type { Piece, Segment } from '../../curves/geometry/pieces/piece.ts';
import { distance, type Point, pointOf } from '../../curves/geometry/point.ts';
import { pieceStretch, stretchOf } from '../../curves/geometry/subcurve.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { reversePath, reversePiece } from '../../curves/geometry/transform.ts';
import type { Job } from '../../job/job.ts';
import { Fault } from '../../units/fault.ts';
import { edgeEnd, edgePath, edgePieces, edgeStart } from '../edge.ts';
import { type Kept, keep, keptBetween, onlyAt } from '../ends/clip-pieces.ts';
import {
  cutAt,
  type EndPlane,
  type EndPlanes,
  endPlane,
  isSquare,
  type PartEnd,
} from '../ends/end-planes.ts';
import { tenonsOf, withoutTenons } from '../ends/tenons.ts';
import { offsetAt } from '../offsets.ts';
import type { Part, PartEdge, Shape, Tenon } from '../part.ts';
import { crossing, type Narrowest, narrowest } from './least-width.ts';
import {
  mustEndTogether,
  mustKeepApart,
  mustKeepShoulders,
  mustNotCrossItself,
  mustNotTouch,
} from './outline-checks.ts';
import { Chain } from './polyline-bvh.ts';

/** The line to cut, as it is drawn and as it is exactly. */
export interface Outline {
  readonly shape: Exclude<Shape, { type: 'half' }>;
  /** The exact pieces in the order of the shape, for its parallel. */
  readonly exact: readonly Piece[];
  /** How the ends of a closed part are cut; absent for a line. */
  readonly ends?: readonly [left: PartEnd, right: PartEnd];
}

/**
 * The finished line of a job's edges: one edge is a line with its chord, two close a part.
 * @throws Fault `part.ends-not-square`, `part.edges-cross`, `part.edge-crosses-itself`, `part.edges-touch`,
 *   `ends.one-edge`, `ends.no-thickness`, `ends.cut-twice`, `ends.shoulder`
 */
export function outlineOf(edges: Part['edges'], job: Job): Outline {
  const [edge, other] = edges;
  return other ? closedOutline([edge, other], job) : lineOutline(edge, job);
}

function lineOutline(edge: PartEdge, { ends }: Job): Outline {
  const leaning = (['left', 'right'] as const).find((side) => ends?.[side] && ends[side].by !== 'square');
  if (leaning)
    throw new Fault(
      'ends.one-edge',
      'one edge is a line on a board and has no end to cut. Set out the other edge too, or leave this out.',
      `ends.${leaning}`,
    );
  const exact = edgePieces(edge);
  mustNotCrossItself(edge, new Chain(exact));
  return { shape: lineShape(edge), exact };
}

/** One edge as a line pattern with its chord. */
export const lineShape = (edge: PartEdge): Extract<Shape, { type: 'line' }> => ({
  type: 'line',
  line: edgePath(edge),
  chord: [edgeStart(edge), edgeEnd(edge)],
});

/** Counter-clockwise from the lower left corner. */
function closedOutline(edges: readonly [PartEdge, PartEdge], job: Job): Outline {
  const [lower, upper] = inOrder(edges);
  mustEndTogether(lower, upper, job.rule);
  const [below, above] = [new Chain(edgePieces(lower)), new Chain(edgePieces(upper))];
  mustNotCrossItself(lower, below);
  mustNotCrossItself(upper, above);
  mustKeepApart(lower, upper, crossing(below, above));
  const planes = planesOf(lower, upper, job);
  mustKeepShoulders([lower, upper], planes, job);
  const [low, high] = [cutShort(lower, planes), cutShort(upper, planes)];
  const all = narrowest(chainOf(low, lower, below), chainOf(high, upper, above));
  mustNotTouch(low, high, all);
  const tenons = tenonsOf(low, high);
  const leastWidth = tenons.length > 0 ? widthBetween(low, high, tenons) : all;
  return {
    shape: { type: 'closed', outline: pathAround(low, high), leastWidth, tenons },
    exact: piecesAround(low, high),
    ends: [partEnd(planes.left, [lower, upper], job), partEnd(planes.right, [lower, upper], job)],
  };
}

const widthBetween = (low: PartEdge, high: PartEdge, tenons: readonly Tenon[]): Narrowest =>
  narrowest(new Chain(withoutTenons(low, tenons)), new Chain(withoutTenons(high, tenons)));

/** The chain of an edge as it is cut: the whole edge's own where nothing was cut off. */
const chainOf = (cut: PartEdge, whole: PartEdge, chain: Chain): Chain =>
  cut === whole ? chain : new Chain(edgePieces(cut));

const planesOf = (lower: PartEdge, upper: PartEdge, job: Job): EndPlanes => ({
  left: endPlane(job, 'left', [edgeStart(lower), edgeStart(upper)]),
  right: endPlane(job, 'right', [edgeEnd(lower), edgeEnd(upper)]),
});

/** The edges of a part as its ends leave them on the marked face; of two, the lower one first. */
export function edgesAsCut({ edges, ends, job }: Pick<Part, 'edges' | 'ends' | 'job'>): readonly PartEdge[] {
  const [edge, other] = edges;
  if (!other) return [edge];
  const [lower, upper] = inOrder([edge, other]);
  if (!ends) return [lower, upper];
  const planes = planesOf(lower, upper, job);
  return [cutShort(lower, planes), cutShort(upper, planes)];
}

/**
 * The outline of a part seen from above, as it is drawn and as it is exactly: an edge runs alike through the wood, so
 * that each end lies where the face that reaches farther out is cut. Undefined where the marked face hides all.
 */
export function outlineFromAbove({ edges, ends, job }: Pick<Part, 'edges' | 'ends' | 'job'>) {
  const [edge, other] = edges;
  if (!ends || !other) return undefined;
  const [lower, upper] = inOrder([edge, other]);
  const planes = planesOf(lower, upper, job);
  const outer = { left: outermost(planes.left, job), right: outermost(planes.right, job) };
  if (outer.left === planes.left && outer.right === planes.right) return undefined;
  const [low, high] = [cutShort(lower, outer), cutShort(upper, outer)];
  return { outline: pathAround(low, high), exact: piecesAround(low, high) };
}

/** The plane so that it cuts the marked face where it cuts the face that reaches farther out. */
function outermost(plane: EndPlane, { stock }: Job): EndPlane {
  const out = Math.tan(plane.angles.splay) * (stock?.thickness ?? 0);
  return (plane.side === 'right' ? out : -out) > JOIN_MM ? { ...plane, reach: plane.reach + out } : plane;
}

/** Run by run what the cuts leave of an edge on the marked face; the edge itself where both ends are square. */
function cutShort(edge: PartEdge, { left, right }: EndPlanes): PartEdge {
  if (isSquare(left) && isSquare(right)) return edge;
  const cuts = { left: cutAt(left, 0), right: cutAt(right, 0) };
  const [exact, path] = [keptBetween(edgePieces(edge), cuts), keptBetween(edgePath(edge), cuts)];
  let [pieces, segments] = [0, 0];
  const runs = edge.runs.flatMap((run): Curve[] => {
    const kept = {
      exact: keep(run.exact, shifted(exact, pieces), pieceStretch),
      path: keep(run.path, shifted(path, segments), (segment, from, to) => [stretchOf(segment, from, to)]),
    };
    pieces += run.exact.length;
    segments += run.path.length;
    if (kept.exact.length === 0 || kept.path.length === 0) return [];
    return [
      {
        ...run,
        ...kept,
        from: pointOf(segmentStart(kept.exact[0]!)),
        to: pointOf(segmentEnd(kept.exact.at(-1)!)),
      },
    ];
  });
  return { name: edge.name, runs, length: runs.reduce((sum, run) => sum + piecesLength(run.exact), 0) };
}

const shifted = ({ from, to }: Kept, by: number): Kept => ({ from: from - by, to: to - by });

/** The lower edge forth, the upper one back, and the ends between them. */
const around = <T extends Piece>(forth: readonly T[], back: readonly T[]): (T | Segment)[] => [
  ...forth,
  ...endLine(segmentEnd(forth.at(-1)!), segmentStart(back[0]!)),
  ...back,
  ...endLine(segmentEnd(back.at(-1)!), segmentStart(forth[0]!)),
];

const pathAround = (low: PartEdge, high: PartEdge): Segment[] =>
  around(edgePath(low), reversePath(edgePath(high)));

const piecesAround = (low: PartEdge, high: PartEdge): Piece[] =>
  around(edgePieces(low), edgePieces(high).reverse().map(reversePiece));

/** Across the part; none where the edges meet in a point. */
const endLine = (from: Point, to: Point): Segment[] =>
  distance(from, to) < JOIN_MM ? [] : [{ type: 'line', from: pointOf(from), to: pointOf(to) }];

/** Where the plane cuts the edges of the part on both its faces: an edge runs alike through the wood. */
function partEnd(plane: EndPlane, edges: readonly [PartEdge, PartEdge], job: Job): PartEnd {
  const corner = (edge: PartEdge, depth: number): Point => {
    const isLeft = plane.side === 'left';
    if (isSquare(plane)) return isLeft ? edgeStart(edge) : edgeEnd(edge);
    const pieces = edgePieces(edge);
    const { from, to } = keptBetween(pieces, onlyAt(plane.side, cutAt(plane, depth)));
    return placeOn(pieces, isLeft ? from : to);
  };
  const on = (depth: number) => [corner(edges[0], depth), corner(edges[1], depth)] as const;
  return { side: plane.side, angles: plane.angles, face: on(0), back: on(job.stock?.thickness ?? 0) };
}

/** The place at a piece's number and the share of its way. */
function placeOn(pieces: readonly Piece[], at: number): Point {
  const i = Math.min(Math.floor(at), pieces.length - 1);
  return pointOf(pointAt(pieces[i]!, at - i));
}

/** The edge nearer the reference line first, judged half-way along. */
export function inOrder([a, b]: readonly [PartEdge, PartEdge]): readonly [PartEdge, PartEdge] {
  const middle = (edgeStart(a).x + edgeEnd(a).x) / 2;
  const height = (edge: PartEdge): number =>
    offsetAt(edge, middle) ?? (edgeStart(edge).y + edgeEnd(edge).y) / 2;
  return height(a) <= height(b) ? [a, b] : [b, a];
}
