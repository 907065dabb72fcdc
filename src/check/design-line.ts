import { makeCurveFromPath } from '../curves/curve.ts';
import { pathEnds } from '../curves/geometry/evaluate.ts';
import type { Piece } from '../curves/geometry/pieces/piece.ts';
import { add, angleFrom, direction, distance, scale } from '../curves/geometry/point.ts';
import { parallelPath } from '../curves/offset/offset-curve.ts';
import { makeEdge } from '../part/edge.ts';
import { type BaseLine, offsetsAt, shoulderCorners, toBaseLine } from '../part/offsets.ts';
import type { Part, PartEdge } from '../part/part.ts';
import { firstOf, lastOf } from '../units/checked.ts';
import { Fault } from '../units/fault.ts';

/** The outward direction along the offset axis: 1 up, −1 down. */
export const outwardSign = (edge: PartEdge): 1 | -1 => (edge.woodIsAbove ? -1 : 1);

/** The parallel of an edge at the saw allowance. @throws Fault `check.no-allowance`, and those of a parallel */
export function sawLineOfEdge(part: Part, edge: PartEdge): PartEdge {
  const example = part.rule.unit === 'in' ? '1/16' : '1.5';
  const problem = `the job has no saw line. Write "saw: ${example}" under "allowance".`;
  if (part.sawAllowance === 0) throw new Fault('check.no-allowance', problem, '--before-sanding');
  const pieces = extendShortEnds(edge.pieces, part.sawAllowance);
  const path = parallelPath(pieces, outwardSign(edge) * part.sawAllowance, false);
  return makeEdge(edge, [makeCurveFromPath(firstOf(edge.runs).kind, path)]);
}

/** Beside a shoulder a straight end no longer than the allowance is extended: there the saw line is the shoulder's. */
function extendShortEnds(pieces: readonly Piece[], allowance: number): Piece[] {
  const runOn = (piece: Piece, end: 'from' | 'to'): Piece => {
    if (piece.type !== 'line' || distance(piece.from, piece.to) > allowance) return piece;
    const way = scale(direction(angleFrom(piece.from, piece.to)), end === 'to' ? allowance : -allowance);
    return { ...piece, [end]: add(piece[end], way) };
  };
  const begun = pieces.with(0, runOn(firstOf(pieces), 'from'));
  return begun.with(-1, runOn(lastOf(begun), 'to'));
}

/**
 * The offset nearest to the measured one. Within `near` (mm) of a shoulder any on it counts, since a rule cannot tell
 * its station; up to `slack` (mm) past its ends the line goes on straight, since an end is read to the graduation.
 */
export function designOffsetAt(
  edge: PartEdge,
  station: number,
  measured: number,
  base: BaseLine,
  { near, slack }: { readonly near: number; readonly slack: number },
): number | undefined {
  const corners = shoulderCorners(edge, base)
    .filter((corner) => Math.abs(corner.station - station) <= near)
    .map(({ offset }) => offset);
  const onShoulder = Math.min(Math.max(measured, Math.min(...corners)), Math.max(...corners));
  const offsets = [...offsetsAt(edge, station, base), ...(corners.length > 0 ? [onShoulder] : [])];
  if (offsets.length === 0) return extrapolatedOffset(edge, station, base, slack);
  return offsets.reduce((a, b) => (Math.abs(b - measured) < Math.abs(a - measured) ? b : a));
}

function extrapolatedOffset(edge: PartEdge, station: number, base: BaseLine, slack: number) {
  for (const end of pathEnds(edge.pieces)) {
    const { x, y } = toBaseLine(end, base);
    const past = station - x;
    if (Math.abs(past) <= slack) return y + past * Math.tan(end.angle - base.angle);
  }
  return undefined;
}
