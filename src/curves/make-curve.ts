import type { Curve, CurveKind } from './curve.ts';
import { segmentEnd, segmentStart } from './geometry/evaluate.ts';
import { fitPath } from './geometry/fit-cubics.ts';
import type { Piece, Segment } from './geometry/pieces/piece.ts';
import { type Point, pointOf } from './geometry/point.ts';

/** A run from its exact pieces, fitted for the writers. */
export const curveOf = (
  kind: CurveKind,
  exact: readonly Piece[],
  ends: Ends,
  pins: readonly Point[],
): Curve => ({
  kind,
  from: ends.from,
  to: ends.to,
  pins,
  exact,
  path: fitPath(exact),
});

interface Ends {
  readonly from: Point;
  readonly to: Point;
}

/** A run that is drawn as it is known: contiguous lines, arcs and cubics. */
export const curveAlong = (kind: CurveKind, path: readonly Segment[]): Curve => ({
  kind,
  from: pointOf(segmentStart(path[0]!)),
  to: pointOf(segmentEnd(path.at(-1)!)),
  pins: [],
  exact: path,
  path,
});
