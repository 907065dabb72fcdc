import { pathEnds, piecesLength } from '../../curves/geometry/evaluate.ts';
import { isShoulder, type Piece } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { subcurve } from '../../curves/geometry/subcurve.ts';
import type { EndSide } from '../../job/job.ts';
import { itemAt, lastOf } from '../../units/checked.ts';
import { lowerEdge } from '../edge.ts';
import { fromBaseLine } from '../offsets.ts';
import type { Part, PartEdge } from '../part.ts';
import { clipOneEnd, clipPieces, findPieceRange } from './clip-pieces.ts';
import { clipPlaneAt, type EndPlane, type PartEnd, placeAlong } from './end-planes.ts';

/** Paper folded down beside a tilted end carries the cut's line over the edge; its fold is as long as the edge. */
export interface FoldTab {
  readonly side: EndSide;
  /** Straight on from the corner of the face as the edge leaves it. */
  readonly fold: readonly [Point, Point];
  /** The cut's line down the edge, from the corner of the face to that of the back. */
  readonly cut: readonly [Point, ...Point[]];
  readonly outline: readonly [Point, Point, Point, Point];
}

/** The fingers of one hand hold it flat; more would be in the way. */
const TAB_LENGTH_MM = 50;

/** The line over a curved edge is curved: in this many parts it is far closer than a pencil draws. */
const CUT_LINE_PARTS = 8;

/** For each edge at each end whose cut is tilted through the wood. */
export function endStrips({ ends, edges, stock }: Pick<Part, 'ends' | 'edges' | 'stock'>): FoldTab[] {
  const thickness = stock?.thickness;
  if (thickness === undefined) return [];
  return (ends ?? [])
    .filter(({ angles }) => angles.splay !== 0)
    .flatMap((end) => edges.map((edge) => makeFoldTab(end, edge, edge === lowerEdge({ edges }), thickness)));
}

function makeFoldTab(end: PartEnd, edge: PartEdge, isLower: boolean, thickness: number): FoldTab {
  const isLeft = end.side === 'left';
  const kept = edgeLeftAtDepth(end, edge);
  const whole = kept(0);
  const corner = itemAt(pathEnds(whole), isLeft ? 0 : 1);
  const length = piecesLength(whole);
  const gone = (depth: number): number => length - piecesLength(kept(depth));
  const [inward, outward] = [isLeft ? 1 : -1, isLower ? -1 : 1];
  const place = (along: number, depth: number): Point =>
    fromBaseLine({ x: inward * along, y: outward * depth }, { origin: corner, angle: corner.angle });
  const cut = Array.from({ length: CUT_LINE_PARTS }, (_, i) => {
    const depth = ((i + 1) / CUT_LINE_PARTS) * thickness;
    return place(gone(depth), depth);
  });
  const back = Math.max(0, gone(thickness));
  const reach = Math.min(
    back + Math.min(TAB_LENGTH_MM, length / 3),
    lengthToShoulder(isLeft ? whole : whole.toReversed()),
  );
  const [from, to] = [place(0, 0), place(reach, 0)];
  return {
    side: end.side,
    fold: [from, to],
    cut: [from, ...cut],
    outline: [from, to, place(reach, thickness), lastOf(cut)],
  };
}

/** Paper folds along an edge no farther than its first shoulder, mm. */
function lengthToShoulder(fromEnd: readonly Piece[]): number {
  const first = fromEnd.findIndex(isShoulder);
  return first < 0 ? Number.POSITIVE_INFINITY : piecesLength(fromEnd.slice(0, first));
}

function edgeLeftAtDepth(end: PartEnd, { pieces }: PartEdge) {
  const { side, angles, face } = end;
  const plane: EndPlane = { ...end, reach: placeAlong(angles, face[0], 0) };
  return (depth: number): readonly Piece[] =>
    clipPieces(pieces, findPieceRange(pieces, clipOneEnd(side, clipPlaneAt(plane, depth))), subcurve);
}
