import { makeCurve, makeCurveFromPath } from '../curves/curve.ts';
import { type CurvePoint, pathEnds } from '../curves/geometry/evaluate.ts';
import {
  type ArcSegment,
  isSegment,
  type LineSegment,
  type Segment,
} from '../curves/geometry/pieces/piece.ts';
import { add, direction, type Point, scale, toPoint } from '../curves/geometry/point.ts';
import { FIT_MM, JOIN_MM } from '../curves/geometry/tolerance.ts';
import { rootsOn, SAMPLES_PER_PIECE } from '../curves/numeric/roots-and-minima.ts';
import { offsetPieces } from '../curves/offset/offset-curve.ts';
import type { EndSide, Job, ParallelEdge } from '../job/job.ts';
import { firstOf, itemAt, lastOf } from '../units/checked.ts';
import { catchFault, Fault } from '../units/fault.ts';
import { makeEdge } from './edge.ts';
import type { ClipPlane } from './ends/clip-pieces.ts';
import { clipPlaneAt, makeEndPlane } from './ends/end-planes.ts';
import { withStandingEnds } from './ends/standing.ts';
import type { PartEdge, PartRun } from './part.ts';

/** How closely the parallel of a curve without a closed form is fitted: nothing beside the fit of the path. */
const EXACT_MM = FIT_MM / 50;

/**
 * The parallel of an edge, carried on to where the ends are cut.
 * @throws Fault `parallel.folds`, `parallel.no-room`, `parallel.no-reach`, `ends.…`
 */
export function makeParallelEdge(edge: ParallelEdge, base: readonly PartRun[], given: Job): PartEdge {
  const runs = catchFault(
    () => parallelRuns(base, edge.by),
    (fault) => {
      throw fault.at(`${edge.key}.by`);
    },
  );
  const { name, key, by } = edge;
  const job = withStandingEnds(given, by > 0 ? name : edge.parallel);
  const head = { name, key, parallel: { to: edge.parallel, by }, woodIsAbove: false };
  const depths = [0, job.stock?.thickness ?? 0];
  const corners = pathEnds(base.flatMap(({ exact }) => exact));
  return (['left', 'right'] as const).reduce(
    (longer, side, i) => {
      const plane = makeEndPlane(job, side, [itemAt(corners, i)]);
      if (plane.by === 'curve') return longer;
      return extendToCuts(
        longer,
        side,
        depths.map((depth) => clipPlaneAt(plane, depth)),
      );
    },
    makeEdge(head, runs),
  );
}

/** Each run becomes one, and an outside corner a run of straight lines. What an inside corner cuts off is left out. */
function parallelRuns(base: readonly PartRun[], by: number): PartRun[] {
  const pieces = base.flatMap(({ exact }) => exact);
  const offset = offsetPieces(pieces, by, false, EXACT_MM);
  let first = 0;
  return base.flatMap(({ kind, exact }): PartRun[] => {
    const own = offset.slice(first, first + exact.length);
    first += exact.length;
    const side = own.flatMap(({ side, corner }, i) => (i < own.length - 1 ? [...side, ...corner] : side));
    const corner = lastOf(own).corner;
    return [
      ...(side.length > 0 ? [runOf(kind === 'line' || kind === 'arc' ? kind : 'parallel', side)] : []),
      ...corner.map((line) => runOf('line', [line])),
    ];
  });
}

function runOf(kind: PartRun['kind'], exact: readonly Segment[]): PartRun {
  const [start, end] = pathEnds(exact);
  return makeCurve({ kind, from: toPoint(start), to: toPoint(end), pins: [], exact });
}

/** An edge carried on to the cuts of an end: an arc as the same arc, any other curve straight. */
function extendToCuts(edge: PartEdge, side: EndSide, cuts: readonly ClipPlane[]): PartEdge {
  const run = side === 'right' ? lastOf(edge.runs) : firstOf(edge.runs);
  const piece = side === 'right' ? lastOf(run.exact) : firstOf(run.exact);
  const [start, end] = pathEnds([piece]);
  const tip = side === 'right' ? end : start;
  const missing = cuts.filter(({ signedDistance }) => signedDistance(tip) < -JOIN_MM);
  if (missing.length === 0) return edge;
  if (piece.type !== 'arc') {
    const own = makeCurveFromPath('line', [straightOn(edge, tip, side, missing)]);
    return makeEdge(edge, side === 'right' ? [...edge.runs, own] : [own, ...edge.runs]);
  }
  const arc = extendArc(edge, piece, side, missing);
  const pieces = run.exact.filter(isSegment);
  const grown = side === 'right' ? [...pieces.slice(0, -1), arc] : [arc, ...pieces.slice(1)];
  const longer = makeCurveFromPath(run.kind, grown);
  return makeEdge(
    edge,
    side === 'right' ? [...edge.runs.slice(0, -1), longer] : [longer, ...edge.runs.slice(1)],
  );
}

/** Farther round, an arc meets no cut that it has not met before. */
const MOST_SWEEP = Math.PI;

function extendArc(edge: PartEdge, arc: ArcSegment, side: EndSide, cuts: readonly ClipPlane[]): ArcSegment {
  const from = side === 'right' ? arc.start + arc.sweep : arc.start;
  const turn = Math.sign(arc.sweep) * MOST_SWEEP;
  const out = side === 'right' ? turn : -turn;
  const at = (u: number): Point => add(arc.centre, scale(direction(from + out * u), arc.radius));
  const shares = cuts.map((cut) => {
    const [first] = rootsOn((u) => cut.signedDistance(at(u)), SAMPLES_PER_PIECE);
    if (first === undefined) throw noReachFault(edge, side, cut.key);
    return first;
  });
  const more = turn * Math.max(...shares);
  return { ...arc, start: side === 'right' ? arc.start : arc.start - more, sweep: arc.sweep + more };
}

function straightOn(edge: PartEdge, tip: CurvePoint, side: EndSide, cuts: readonly ClipPlane[]): LineSegment {
  const out = direction(side === 'right' ? tip.angle : tip.angle + Math.PI);
  const lengths = cuts.map(({ signedDistance, key }) => {
    const gained = signedDistance(add(tip, out)) - signedDistance(tip);
    const length = -signedDistance(tip) / gained;
    // A piece longer than the edge is no end of it.
    if (!(length > 0 && length < edge.length)) throw noReachFault(edge, side, key);
    return length;
  });
  const [from, to] = [toPoint(tip), add(tip, scale(out, Math.max(...lengths)))];
  return side === 'right' ? { type: 'line', from, to } : { type: 'line', from: to, to: from };
}

const noReachFault = ({ name }: PartEdge, side: EndSide, key: string): Fault =>
  new Fault(
    'parallel.no-reach',
    `the edge "${name}" does not meet the cut of the ${side} end. Cut that end square to the curve, or at a smaller angle.`,
    key,
  );
