import { itemAt, neighbors } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { type CurvePoint, paramCurve, pieceEnd, pieceStart } from '../geometry/evaluate.ts';
import { minimizeAlong } from '../geometry/extrema.ts';
import { fitCubics } from '../geometry/fit-cubics.ts';
import type { Piece, Segment } from '../geometry/pieces/piece.ts';
import {
  add,
  cross,
  direction,
  distance,
  dot,
  leftNormal,
  type Point,
  scale,
  subtract,
  toPoint,
} from '../geometry/point.ts';
import { subsegment } from '../geometry/subcurve.ts';
import { FIT_MM, JOIN_MM } from '../geometry/tolerance.ts';

/** Tangents closer than this (rad) meet without a corner: 1e-7 of a 100 mm parallel is 1e-5 mm, JOIN_MM. */
const SMOOTH = 1e-7;

/**
 * The line at a distance to the left (right when negative), mm: lines and arcs exact, the rest within `tolerance`.
 * Outside corners extend both sides until they meet (sharper than a right angle they are cut off square at the
 * distance), inside ones trim both. A shoulder may be shorter than the distance: one corner trims what the other adds.
 * @throws Fault `parallel.distance`; `parallel.folds` where a bend is too sharp; `parallel.no-room` at a corner
 */
export function parallelPath(pieces: readonly Piece[], away: number, closed: boolean, tolerance = FIT_MM) {
  return offsetPieces(pieces, away, closed, tolerance).flatMap(({ side, corner }) => [...side, ...corner]);
}

/** The same piece by piece: the parallel of each, and what joins it to the next. */
export function offsetPieces(pieces: readonly Piece[], away: number, closed: boolean, tolerance = FIT_MM) {
  if (away === 0 || !Number.isFinite(away))
    throw new Fault(
      'parallel.distance',
      `${away} mm is not a distance for a parallel line. Use a positive one for the left, a negative one for the right.`,
    );
  for (const piece of pieces) assertNoFold(piece, away);
  const sides = pieces.map((piece) => new OffsetPiece(piece, away));
  const meets = sides.map((side, i) => {
    const next = sides[i + 1] ?? (closed ? sides[0] : undefined);
    return next && { side, next, turn: cornerAngle(side, next) };
  });
  // Outside corners first: a line that one of them extends has that much more to be trimmed at its other end.
  const joins = meets.map((meet) =>
    meet && meet.turn * away < 0 ? outsideCorner(meet.side, meet.next, meet.turn, away) : [],
  );
  for (const meet of meets)
    if (meet && meet.turn * away > 0)
      trimInsideCorner(meet.side, meet.next, Math.abs(meet.turn), Math.abs(away));
  for (const [i, side] of sides.entries()) {
    if (!side.isConsumed) continue;
    if (side.to < 1) joins.at(i - 1)?.splice(-1, 1, toPoint(side.evaluate(side.to)));
    else joins[i]?.splice(0, 1, toPoint(side.evaluate(side.from)));
  }
  return sides.map((side, i) => ({ side: side.toSegments(tolerance), corner: polyline(itemAt(joins, i)) }));
}

class OffsetPiece {
  from = 0;
  to = 1;
  /** How far outside corners extend a straight side before its start and past its end, in shares of its length. */
  extendedBefore = 0;
  extendedAfter = 0;
  readonly evaluate: (u: number) => CurvePoint;

  constructor(
    readonly piece: Piece,
    private readonly away: number,
  ) {
    const base = paramCurve(piece);
    this.evaluate = (u) => {
      const place = base(u);
      const { angle, curvature, speed } = place;
      const stretch = 1 - curvature * away;
      const { x, y } = add(place, scale(leftNormal(direction(angle)), away));
      return { x, y, angle, curvature: curvature / stretch, speed: speed * stretch };
    };
  }

  /** Whether only what an outside corner extended is left; a fault if not even that is. */
  get isConsumed(): boolean {
    const left = this.to - this.from;
    if (left + this.extendedAfter + this.extendedBefore <= 0) throw noRoomFault(this.evaluate(0), this.away);
    return left * this.evaluate(this.from).speed < JOIN_MM;
  }

  toSegments(tolerance: number): Segment[] {
    if (this.isConsumed) return [];
    const { piece, from, to } = this;
    if (piece.type === 'line')
      return [{ type: 'line', from: toPoint(this.evaluate(from)), to: toPoint(this.evaluate(to)) }];
    if (piece.type !== 'arc') return fitCubics(this.evaluate, from, to, tolerance);
    const radius = piece.radius - Math.sign(piece.sweep) * this.away;
    return [subsegment({ ...piece, radius }, from, to)];
  }
}

const polyline = (points: readonly Point[]): Segment[] =>
  neighbors(points).map(([from, to]) => ({ type: 'line', from, to }));

/** Radians, left positive, 0 where smooth. Where the line turns right back, the two curvatures give the sign. */
function cornerAngle(before: OffsetPiece, after: OffsetPiece): number {
  const [t0, t1] = [direction(before.evaluate(1).angle), direction(after.evaluate(0).angle)];
  const turn = Math.atan2(cross(t0, t1), dot(t0, t1));
  if (Math.abs(turn) > Math.PI - SMOOTH) {
    const bends = pieceEnd(before.piece).curvature + pieceStart(after.piece).curvature;
    return bends < 0 ? Math.PI : -Math.PI;
  }
  return Math.abs(turn) < SMOOTH ? 0 : turn;
}

function outsideCorner(before: OffsetPiece, after: OffsetPiece, turn: number, away: number): Point[] {
  const [end, start] = [before.evaluate(1), after.evaluate(0)];
  const reach = Math.abs(away) * Math.min(Math.tan(Math.abs(turn) / 2), 1);
  if (before.piece.type === 'line') before.extendedAfter = reach / end.speed;
  if (after.piece.type === 'line') after.extendedBefore = reach / start.speed;
  const past = add(end, scale(direction(end.angle), reach));
  const before0 = subtract(start, scale(direction(start.angle), reach));
  const points = [toPoint(end), past, before0, toPoint(start)];
  return points.filter((p, i) => i === 0 || distance(p, itemAt(points, i - 1)) > JOIN_MM);
}

/** Newton steps to the crossing of two trimmed sides; nearly straight near a corner, they need 3 to 5. */
const MAX_STEPS = 30;

function trimInsideCorner(before: OffsetPiece, after: OffsetPiece, turn: number, away: number): void {
  const back = away * Math.tan(turn / 2);
  let u = 1 - back / before.evaluate(1).speed;
  let v = back / after.evaluate(0).speed;
  for (let i = 0; i < MAX_STEPS; i++) {
    const [p, q] = [before.evaluate(u), after.evaluate(v)];
    const gap = subtract(q, p);
    const [dp, dq] = [scale(direction(p.angle), p.speed), scale(direction(q.angle), q.speed)];
    const determinant = cross(dp, dq);
    u += cross(gap, dq) / determinant;
    v += cross(gap, dp) / determinant;
    if (!(u > -before.extendedBefore && u < 1 && v > 0 && v < 1 + after.extendedAfter)) break;
    if (distance(p, q) < JOIN_MM / 10) {
      before.to = u;
      after.from = v;
      return;
    }
  }
  throw noRoomFault(pieceEnd(before.piece), away);
}

const noRoomFault = (at: Point, away: number): Fault =>
  new Fault(
    'parallel.no-room',
    (mm) =>
      `a parallel ${mm(Math.abs(away))} away does not fit the corner at station ${mm(at.x)}: the edge there is too short. ` +
      'Use a smaller distance, or round the corner.',
  );

/** A parallel folds back where its distance reaches the radius. */
function assertNoFold(piece: Piece, away: number): void {
  if (piece.type === 'line') return;
  const sharpest = minimizeAlong(piece, ({ curvature }) => -curvature * Math.sign(away));
  if (1 - sharpest.curvature * away > 0) return;
  throw new Fault(
    'parallel.folds',
    (mm) =>
      `a parallel ${mm(Math.abs(away))} away folds back at station ${mm(sharpest.x)}, where the radius is only ` +
      `${mm(1 / Math.abs(sharpest.curvature))}. Use a smaller distance, or ease the curve there.`,
  );
}
