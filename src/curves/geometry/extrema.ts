import { neighbors } from '../../units/checked.ts';
import { minimizeOn, rootsOn, SAMPLES_PER_PIECE } from '../numeric/roots-and-minima.ts';
import { type CurvePoint, paramCurve } from './evaluate.ts';
import type { Piece } from './pieces/piece.ts';

export function minimizeAlong(
  piece: Piece,
  of: (place: CurvePoint) => number,
  steps = SAMPLES_PER_PIECE,
): CurvePoint {
  const at = paramCurve(piece);
  return at(minimizeOn((u) => of(at(u)), steps).at);
}

/** Over 0 by less than this is the rounding of a root. */
const ROUNDING = 1e-9;

/** For each stretch of a piece where `of` is over 0, the place where it is greatest. */
export function positivePeaks(piece: Piece, of: (place: CurvePoint) => number): CurvePoint[] {
  const at = paramCurve(piece);
  const bounds = [0, ...rootsOn((u) => of(at(u)), SAMPLES_PER_PIECE), 1];
  return neighbors(bounds).flatMap(([from, to]) => {
    if (to <= from) return [];
    const place = (u: number): CurvePoint => at(from + u * (to - from));
    const peak = place(minimizeOn((u) => -of(place(u)), SAMPLES_PER_PIECE).at);
    return of(peak) > ROUNDING ? [peak] : [];
  });
}
