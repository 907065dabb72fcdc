import { evaluate, pathEnds } from '../../curves/geometry/evaluate.ts';
import type { Piece, Segment } from '../../curves/geometry/pieces/piece.ts';
import { distance, type Point, toPoint } from '../../curves/geometry/point.ts';
import { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';
import { subcurve, subsegment } from '../../curves/geometry/subcurve.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { reversePath, reversePiece } from '../../curves/geometry/transform.ts';
import { isParallelEdge, type Job } from '../../job/job.ts';
import { itemAt } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { edgeEnd, edgeStart, lowerFirst, makeEdge } from '../edge.ts';
import {
  type ClipPlane,
  clipOneEnd,
  clipPieces,
  findPieceRange,
  NO_CLIP,
  type PieceRange,
} from '../ends/clip-pieces.ts';
import type { EndPlane, EndPlanes, PartEnd } from '../ends/end-planes.ts';
import { clipPlaneAt, isSquare, makeEndPlane } from '../ends/end-planes.ts';
import { findTenons, withoutTenons } from '../ends/tenons.ts';
import type { Part, PartEdge, PartRun, PartShape } from '../part.ts';
import { findLeastWidth, firstCrossing } from './least-width.ts';
import {
  assertEndsAligned,
  assertNotCrossing,
  assertNotSelfCrossing,
  assertNotTouching,
  assertShouldersKept,
} from './outline-checks.ts';

export interface Outline extends Pick<Part, 'exact' | 'ends'> {
  readonly shape: Exclude<PartShape, { type: 'half' }>;
}

/** The finished line of a job's edges. @throws Fault `part.…`, `ends.…` */
export function makeOutline(edges: Part['edges'], job: Job): Outline {
  const [edge, other] = edges;
  return other ? closedOutline([edge, other], job) : lineOutline(edge, job);
}

function lineOutline(edge: PartEdge, { ends, stands }: Job): Outline {
  if (stands)
    throw new Fault(
      'ends.one-edge',
      'one edge is a line and has no foot. Draw the other edge, too.',
      'stands',
    );
  const leaning = (['left', 'right'] as const).find((side) => ends?.[side] && ends[side].by !== 'square');
  if (leaning)
    throw new Fault(
      'ends.one-edge',
      'a part with one edge has no ends to cut. Add the second edge, or remove this.',
      `ends.${leaning}`,
    );
  assertNotSelfCrossing(edge, new PolylineBvh(edge.pieces));
  return { shape: makeLineShape(edge), exact: edge.pieces };
}

export const makeLineShape = (edge: PartEdge): Extract<PartShape, { type: 'line' }> => {
  return { type: 'line', line: edge.path, chord: [edgeStart(edge), edgeEnd(edge)] };
};

function closedOutline(edges: readonly [PartEdge, PartEdge], job: Job): Outline {
  const [lower, upper] = lowerFirst(edges);
  const base = drawnEdges(edges, job);
  if (base.length === 2) assertEndsAligned(lower, upper, job.rule);
  const [below, above] = [new PolylineBvh(lower.pieces), new PolylineBvh(upper.pieces)];
  assertNotSelfCrossing(lower, below);
  assertNotSelfCrossing(upper, above);
  assertNotCrossing(lower, upper, firstCrossing(below, above));
  const planes = {
    left: makeEndPlane(
      job,
      'left',
      base.map(({ pieces }) => pathEnds(pieces)[0]),
    ),
    right: makeEndPlane(
      job,
      'right',
      base.map(({ pieces }) => pathEnds(pieces)[1]),
    ),
  };
  assertShouldersKept([lower, upper], planes, job);
  const [low, high] = [clipEdge(lower, planes), clipEdge(upper, planes)];
  const all = findLeastWidth(chainOf(low, lower, below), chainOf(high, upper, above));
  assertNotTouching(low, high, all);
  const tenons = findTenons(low, high);
  const clear = (edge: PartEdge): PolylineBvh => new PolylineBvh(withoutTenons(edge, tenons));
  const leastWidth = tenons.length > 0 ? findLeastWidth(clear(low), clear(high)) : all;
  return {
    shape: { type: 'closed', outline: pathAround(low, high), leastWidth, tenons },
    exact: piecesAround(low, high),
    ends: [makePartEnd(planes.left, [lower, upper], job), makePartEnd(planes.right, [lower, upper], job)],
  };
}

const drawnEdges = (edges: readonly PartEdge[], job: Job): readonly PartEdge[] =>
  edges.filter((_, i) => !isParallelEdge(itemAt(job.edges, i)));

const chainOf = (cut: PartEdge, whole: PartEdge, chain: PolylineBvh): PolylineBvh =>
  cut === whole ? chain : new PolylineBvh(cut.pieces);

/** The edges of a part as its ends leave them on the marked face; of two, the lower one first. */
export function edgesAsCut({ edges, ends }: Pick<Part, 'edges' | 'ends'>): readonly PartEdge[] {
  const [edge, other] = edges;
  if (!other) return [edge];
  const [lower, upper] = lowerFirst([edge, other]);
  if (!ends) return [lower, upper];
  const planes = { left: ends[0], right: ends[1] };
  return [clipEdge(lower, planes), clipEdge(upper, planes)];
}

/** Seen from above, each end is where the face that reaches farther out is cut. Undefined where the marked face hides all. */
export function outlineFromAbove({ edges, ends, stock }: Pick<Part, 'edges' | 'ends' | 'stock'>) {
  const [edge, other] = edges;
  if (!ends || !other) return undefined;
  const [lower, upper] = lowerFirst([edge, other]);
  const outer = { left: outermostPlane(ends[0], stock), right: outermostPlane(ends[1], stock) };
  if (outer.left === ends[0] && outer.right === ends[1]) return undefined;
  const [low, high] = [clipEdge(lower, outer), clipEdge(upper, outer)];
  return { outline: pathAround(low, high), exact: piecesAround(low, high) };
}

/** The finished line at a depth under the reference face, mm: the edges are square to it, the ends may not be. */
export function outlineAtDepth(part: Pick<Part, 'edges' | 'ends'>, depth: number): Segment[] {
  const [edge, other] = part.edges;
  if (!part.ends || !other) throw new Error('a line has no ends to cut');
  const [lower, upper] = lowerFirst([edge, other]);
  const [left, right] = part.ends;
  const planes = { left: planeAtDepth(left, depth), right: planeAtDepth(right, depth) };
  return pathAround(clipEdge(lower, planes), clipEdge(upper, planes));
}

/** A plane whose line on the face is that of this one at a depth. */
const planeAtDepth = (plane: EndPlane, depth: number): EndPlane => {
  const { splay, rake } = plane.angles;
  return { ...plane, reach: plane.reach + Math.tan(splay) * Math.cos(rake) * depth };
};

function outermostPlane(plane: EndPlane, stock: Part['stock']): EndPlane {
  const thickness = stock?.thickness ?? 0;
  const out = Math.tan(plane.angles.splay) * thickness;
  return (plane.side === 'right' ? out : -out) > JOIN_MM ? planeAtDepth(plane, thickness) : plane;
}

function clipEdge(edge: PartEdge, { left, right }: EndPlanes): PartEdge {
  const cuts = { left: cutOf(left, edgeStart(edge)), right: cutOf(right, edgeEnd(edge)) };
  if (cuts.left === NO_CLIP && cuts.right === NO_CLIP) return edge;
  const [exact, path] = [findPieceRange(edge.pieces, cuts), findPieceRange(edge.path, cuts)];
  let [pieces, segments] = [0, 0];
  const runs = edge.runs.flatMap((run): PartRun[] => {
    const kept = {
      exact: clipPieces(run.exact, shiftRange(exact, pieces), subcurve),
      path: clipPieces(run.path, shiftRange(path, segments), (...stretch) => [subsegment(...stretch)]),
    };
    pieces += run.exact.length;
    segments += run.path.length;
    if (kept.exact.length === 0 || kept.path.length === 0) return [];
    const [start, end] = pathEnds(kept.exact);
    return [{ ...run, ...kept, from: toPoint(start), to: toPoint(end) }];
  });
  return makeEdge(edge, runs);
}

/** None where the edge ends in a square cut already, and square to a curve, where both edges do. */
function cutOf(plane: EndPlane, tip: Point): ClipPlane {
  const cut = clipPlaneAt(plane, 0);
  const isThere = isSquare(plane) && Math.abs(cut.signedDistance(tip)) <= JOIN_MM;
  return plane.by === 'curve' || isThere ? NO_CLIP : cut;
}

const shiftRange = ({ from, to }: PieceRange, by: number): PieceRange => ({ from: from - by, to: to - by });

function joinAround<T extends Piece>(forth: readonly T[], back: readonly T[]): (T | Segment)[] {
  const [[from, turn], [turned, to]] = [pathEnds(forth), pathEnds(back)];
  return [...forth, ...endLine(turn, turned), ...back, ...endLine(to, from)];
}

const pathAround = (low: PartEdge, high: PartEdge): Segment[] => joinAround(low.path, reversePath(high.path));

const piecesAround = (low: PartEdge, high: PartEdge): Piece[] =>
  joinAround(low.pieces, high.pieces.toReversed().map(reversePiece));

const endLine = (from: Point, to: Point): Segment[] =>
  distance(from, to) < JOIN_MM ? [] : [{ type: 'line', from: toPoint(from), to: toPoint(to) }];

function makePartEnd(plane: EndPlane, edges: readonly [PartEdge, PartEdge], job: Job): PartEnd {
  const corner = (edge: PartEdge, depth: number): Point => {
    const isLeft = plane.side === 'left';
    const tip = isLeft ? edgeStart(edge) : edgeEnd(edge);
    if (cutOf(plane, tip) === NO_CLIP) return tip;
    const { from, to } = findPieceRange(edge.pieces, clipOneEnd(plane.side, clipPlaneAt(plane, depth)));
    const at = isLeft ? from : to;
    const i = Math.min(Math.floor(at), edge.pieces.length - 1);
    return toPoint(evaluate(itemAt(edge.pieces, i), at - i));
  };
  const on = (depth: number) => [corner(edges[0], depth), corner(edges[1], depth)] as const;
  return { ...plane, face: on(0), back: on(job.stock?.thickness ?? 0) };
}
