import { paramCurve, pathEnds } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { rootsOn, SAMPLES_PER_PIECE } from '../../curves/numeric/roots-and-minima.ts';
import type { EndSide } from '../../job/job.ts';
import { Fault } from '../../units/fault.ts';

export interface ClipPlane {
  /** How far a point lies beyond the cut, mm along the station: what is over 0 is cut off. */
  readonly signedDistance: (at: Point) => number;
  readonly key: string;
}

type ClipPlanes = Readonly<Record<EndSide, ClipPlane>>;

/** Where the edges end as they should already. */
export const NO_CLIP: ClipPlane = { signedDistance: () => -1, key: '' };

export const clipOneEnd = (side: EndSide, cut: ClipPlane): ClipPlanes => ({
  left: NO_CLIP,
  right: NO_CLIP,
  [side]: cut,
});

/** A stretch of contiguous pieces: each bound is a piece's number and the share of its way. */
export interface PieceRange {
  readonly from: number;
  readonly to: number;
}

/** What two cuts leave of contiguous pieces. @throws Fault `ends.cut-twice` where one meets them twice or leaves nothing */
export function findPieceRange(pieces: readonly Piece[], { left, right }: ClipPlanes): PieceRange {
  const [start, end] = pathEnds(pieces);
  const tips = [start, end];
  const from = findCut(pieces, left, start, 0, tips);
  const to = findCut(pieces, right, end, pieces.length, tips);
  if (to <= from) throw cutTwiceFault(right.key, start);
  return { from, to };
}

/** Each piece is cut short by `stretch`: a path stays a path, an exact line exact. */
export const clipPieces = <T extends Piece>(
  pieces: readonly T[],
  { from, to }: PieceRange,
  stretch: (piece: T, from: number, to: number) => readonly T[],
): T[] =>
  pieces.flatMap((piece, i) => {
    const [a, b] = [Math.max(0, from - i), Math.min(1, to - i)];
    return a < b ? stretch(piece, a, b) : [];
  });

/** `end` where the cut touches the tip; a cut through the other tip leaves that one, as it is level with this. */
function findCut(
  pieces: readonly Piece[],
  { signedDistance, key }: ClipPlane,
  tip: Point,
  end: number,
  tips: readonly Point[],
): number {
  const found: number[] = [];
  pieces.forEach((piece, i) => {
    const at = paramCurve(piece);
    // Neighbors share the place where they meet.
    for (const u of rootsOn((v) => signedDistance(at(v)), SAMPLES_PER_PIECE))
      if (tips.every((each) => distance(at(u), each) > JOIN_MM) && i + u - (found.at(-1) ?? -1) >= 1e-9)
        found.push(i + u);
  });
  const [first, second] = found;
  if (signedDistance(tip) <= JOIN_MM && first === undefined) return end;
  if (first === undefined || second !== undefined) throw cutTwiceFault(key, tip);
  return first;
}

const cutTwiceFault = (key: string, tip: Point): Fault =>
  new Fault(
    'ends.cut-twice',
    (mm) =>
      `the cut of the end at station ${mm(tip.x)} does not cross the edges exactly once. ` +
      'Use a smaller angle, or make the edges straight there.',
    key,
  );
