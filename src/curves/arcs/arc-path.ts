import { firstOf, lastOf } from '../../units/checked.ts';
import { pieceEnd, pieceStart } from '../geometry/evaluate.ts';
import type { ArcSegment, Piece } from '../geometry/pieces/piece.ts';
import { direction, distance, dot, toPoint } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import type { BulgedArc } from './biarc.ts';
import { fitArcs } from './fit-arcs.ts';

/** Tangents closer than this (rad) meet without a corner: a micrometer over a meter. */
const SMOOTH = 1e-6;

/** An arc that rises less than a nanometer over its chord is a line, mm. */
const STRAIGHT_MM = 1e-6;

/** Largest radius, mm: at 100,000 km a reader that goes round the center loses 0.00002 mm, farther out more than a line. */
const MAX_CENTRE_MM = 1e11;
const FLAT_MM = 2.5e-4;

/** Largest sweep of one arc, radians: beyond half a circle its bulge loses digits. */
const MAX_SWEEP = Math.PI;

/** Lines and arcs unchanged, all else as arcs within `tolerance` (mm), without a corner where the pieces have none. */
export function arcPath(pieces: readonly Piece[], closed: boolean, tolerance: number): BulgedArc[] {
  const runs = smoothRuns(pieces, tolerance);
  const arcs = runs.flatMap((run, i) => {
    const [piece] = run;
    if (piece?.type === 'line') return [{ from: toPoint(piece.from), to: toPoint(piece.to), bulge: 0 }];
    if (piece?.type === 'arc') return toBulgedArcs(piece);
    const before = runs[i - 1] ?? (closed ? runs.at(-1) : undefined);
    const after = runs[i + 1] ?? (closed ? runs[0] : undefined);
    return fitArcs(run, tolerance, {
      start: before !== undefined && before !== run && meetSmoothly(lastOf(before), firstOf(run), tolerance),
      end: after !== undefined && after !== run && meetSmoothly(lastOf(run), firstOf(after), tolerance),
    });
  });
  return snapEnds(arcs, closed);
}

const needsFitting = ({ type }: Piece): boolean => type !== 'line' && type !== 'arc';

function smoothRuns(pieces: readonly Piece[], tolerance: number): Piece[][] {
  const runs: Piece[][] = [];
  for (const piece of pieces) {
    const last = runs.at(-1)?.at(-1);
    if (last && needsFitting(last) && needsFitting(piece) && meetSmoothly(last, piece, tolerance))
      lastOf(runs).push(piece);
    else runs.push([piece]);
  }
  return runs;
}

/** A turn within the tolerance, as at the ends of a flat half ellipse, is a corner: no arc could keep that tangent. */
function meetSmoothly(one: Piece, next: Piece, tolerance: number): boolean {
  const [end, start] = [pieceEnd(one), pieceStart(next)];
  if (Math.max(Math.abs(end.curvature), Math.abs(start.curvature)) * tolerance > 1) return false;
  const turn = dot(direction(end.angle), direction(start.angle));
  return distance(end, start) < JOIN_MM && turn > 0 && Math.abs(Math.sin(start.angle - end.angle)) < SMOOTH;
}

function toBulgedArcs(arc: ArcSegment): BulgedArc[] {
  const count = Math.max(1, Math.ceil(Math.abs(arc.sweep) / MAX_SWEEP - SMOOTH));
  const sweep = arc.sweep / count;
  return Array.from({ length: count }, (_, i) => {
    const part = { ...arc, start: arc.start + sweep * i, sweep };
    return { from: toPoint(pieceStart(part)), to: toPoint(pieceEnd(part)), bulge: Math.tan(sweep / 4) };
  });
}

const snapEnds = (arcs: readonly BulgedArc[], closed: boolean): BulgedArc[] =>
  arcs.map((arc, i) => {
    const next = arcs[i + 1] ?? (closed ? arcs[0] : undefined);
    const [from, to] = [toPoint(arc.from), toPoint(next?.from ?? arc.to)];
    return { from, to, bulge: isFlat(arc.bulge, distance(from, to)) ? 0 : arc.bulge };
  });

function isFlat(bulge: number, chord: number): boolean {
  const rise = (Math.abs(bulge) * chord) / 2;
  return rise < STRAIGHT_MM || (rise < FLAT_MM && chord ** 2 / (8 * rise) > MAX_CENTRE_MM);
}
