import { pieceEnd, pieceStart } from '../../curves/geometry/evaluate.ts';
import { isShoulder, type LineSegment, type Piece } from '../../curves/geometry/pieces/piece.ts';
import { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { EndSide } from '../../job/job.ts';
import { stationRange } from '../edge.ts';
import { findLeastWidth } from '../outline/least-width.ts';
import type { PartEdge, Tenon } from '../part.ts';

/** A longer stub is shape of the part: a tenon is at most a quarter of a stretcher. Common practice, no source. */
const MAX_TENON_SHARE = 0.25;

/** Where every shoulder nearest to an end makes the part wider inwards: other steps and notches are its shape. */
export const findTenons = (lower: PartEdge, upper: PartEdge): Tenon[] =>
  (['left', 'right'] as const).flatMap((side) => findTenonAt(side, lower, upper) ?? []);

function findTenonAt(side: EndSide, lower: PartEdge, upper: PartEdge): Tenon | undefined {
  const out = side === 'left' ? -1 : 1;
  const first = [lower, upper].map((edge) => {
    const shoulders = edge.pieces.filter(isShoulder);
    return side === 'left' ? shoulders[0] : shoulders.at(-1);
  });
  const stations = first.flatMap((one) => (one ? [one.from.x] : []));
  if (stations.length === 0) return undefined;
  const shoulder = out * Math.max(...stations.map((station) => out * station));
  const [from, to] = stationRange([lower, upper]);
  if (Math.abs((side === 'left' ? from : to) - shoulder) > MAX_TENON_SHARE * (to - from)) return undefined;
  const isWider = first.every((one, i) => {
    if (!one || !isShoulderAt(one, shoulder)) return true;
    const grows = (one.to.y - one.from.y) * (i === 0 ? -1 : 1);
    return grows * -out > 0;
  });
  if (!isWider) return undefined;
  const outside = ({ pieces }: PartEdge) => new PolylineBvh(piecesOutside(pieces, side, shoulder));
  return { side, shoulder, ...findLeastWidth(outside(lower), outside(upper)) };
}

const isShoulderAt = (piece: Piece, station: number): piece is LineSegment =>
  isShoulder(piece) && Math.abs(piece.from.x - station) < JOIN_MM;

/** The pieces from a shoulder to the end; of an edge without one, all that reach beyond the station. */
function piecesOutside(pieces: readonly Piece[], side: EndSide, shoulder: number): readonly Piece[] {
  const at = pieces.findIndex((piece) => isShoulderAt(piece, shoulder));
  if (at >= 0) return side === 'left' ? pieces.slice(0, at) : pieces.slice(at + 1);
  const reaches = (piece: Piece): boolean =>
    side === 'left' ? pieceStart(piece).x < shoulder : pieceEnd(piece).x > shoulder;
  return pieces.filter(reaches);
}

export const withoutTenons = (edge: PartEdge, tenons: readonly Tenon[]): readonly Piece[] =>
  tenons.reduce((pieces, { side, shoulder }) => {
    const at = pieces.findIndex((piece) => isShoulderAt(piece, shoulder));
    if (at < 0) return pieces;
    return side === 'left' ? pieces.slice(at + 1) : pieces.slice(0, at);
  }, edge.pieces);

/** Whether a station (mm) is within a tenon. */
export const isInTenon = (tenons: readonly Tenon[], station: number): boolean =>
  tenons.some(({ side, shoulder }) => (side === 'left' ? station < shoulder : station > shoulder));
