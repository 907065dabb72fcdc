import { firstOf, lastOf } from '../units/checked.ts';
import type { Curve, CurveKind } from './curve.ts';
import { pieceEnd, pieceStart } from './geometry/evaluate.ts';
import { fitPath } from './geometry/fit-cubics.ts';
import type { Piece, Segment } from './geometry/pieces/piece.ts';
import { type Point, toPoint } from './geometry/point.ts';

/** A run from its exact pieces, fitted for the writers. */
export const makeCurve = (
  kind: CurveKind,
  exact: readonly Piece[],
  ends: CurveEnds,
  pins: readonly Point[],
): Curve => ({
  kind,
  from: ends.from,
  to: ends.to,
  pins,
  exact,
  path: fitPath(exact),
});

interface CurveEnds {
  readonly from: Point;
  readonly to: Point;
}

/** A run that is drawn as it is known: contiguous lines, arcs and cubics. */
export const makeCurveFromPath = (kind: CurveKind, path: readonly Segment[]): Curve => ({
  kind,
  from: toPoint(pieceStart(firstOf(path))),
  to: toPoint(pieceEnd(lastOf(path))),
  pins: [],
  exact: path,
  path,
});
