import { along, segmentEnd, segmentStart } from '../../curves/geometry/evaluate.ts';
import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { PIECE_STEPS, rootsOnUnit } from '../../curves/numeric/roots-and-minima.ts';
import type { Side } from '../../job/job.ts';
import { Fault } from '../../units/fault.ts';

/** How far a point lies beyond a cut, mm along the station: what is over 0 is cut off. */
export type Past = (at: Point) => number;

/** A cut at one end of contiguous pieces, and the key its faults are reported under. */
export interface Cut {
  readonly past: Past;
  readonly key: string;
}

const UNCUT: Cut = { past: () => -1, key: '' };

/** One cut, the other end left as it is. */
export const onlyAt = (side: Side, cut: Cut): { readonly left: Cut; readonly right: Cut } =>
  side === 'left' ? { left: cut, right: UNCUT } : { left: UNCUT, right: cut };

/** A stretch of contiguous pieces: each bound is a piece's number and the share of its way. */
export interface Kept {
  readonly from: number;
  readonly to: number;
}

/**
 * What two cuts leave of contiguous pieces that run from the left one to the right one.
 * @throws Fault `ends.cut-twice` where a cut passes an edge more than once or leaves nothing of it
 */
export function keptBetween(
  pieces: readonly Piece[],
  { left, right }: { readonly left: Cut; readonly right: Cut },
): Kept {
  const from = crossing(pieces, left, segmentStart(pieces[0]!), 0);
  const to = crossing(pieces, right, segmentEnd(pieces.at(-1)!), pieces.length);
  if (to <= from) throw cutTwice(right.key, segmentStart(pieces[0]!));
  return { from, to };
}

/** That stretch of the pieces, each cut short by `stretch`: a path stays a path, an exact line exact. */
export const keep = <T extends Piece>(
  pieces: readonly T[],
  { from, to }: Kept,
  stretch: (piece: T, from: number, to: number) => readonly T[],
): T[] =>
  pieces.flatMap((piece, i) => {
    const [a, b] = [Math.max(0, from - i), Math.min(1, to - i)];
    return a < b ? stretch(piece, a, b) : [];
  });

/** Where the pieces meet a cut, as the piece's number and the share of its way: `end` where the cut touches that. */
function crossing(pieces: readonly Piece[], { past, key }: Cut, tip: Point, end: number): number {
  const found: number[] = [];
  pieces.forEach((piece, i) => {
    const at = along(piece);
    for (const u of rootsOnUnit((v) => past(at(v)), PIECE_STEPS))
      if (distance(at(u), tip) > JOIN_MM && !sameAs(found.at(-1), i + u)) found.push(i + u);
  });
  const [first, second] = found;
  if (past(tip) <= JOIN_MM && first === undefined) return end;
  if (first === undefined || second !== undefined) throw cutTwice(key, tip);
  return first;
}

/** The end of one piece and the start of the next are one place. */
const sameAs = (known: number | undefined, t: number): boolean => known !== undefined && t - known < 1e-9;

const cutTwice = (key: string, tip: Point): Fault =>
  new Fault(
    'ends.cut-twice',
    (mm) =>
      `the cut does not pass from edge to edge just once at the end that stands at station ${mm(tip.x)}. ` +
      'Make its angle smaller, or let the edges run straight there.',
    key,
  );
