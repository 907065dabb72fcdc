import { Fault } from '../units/fault.ts';
import { along, type Place, segmentEnd } from './along.ts';
import { fitCubics } from './fit.ts';
import { leastAlong } from './least-along.ts';
import type { ArcSegment, Piece, Segment } from './piece.ts';
import { add, cross, direction, distance, leftOf, type Point, pointOf, scale, subtract } from './point.ts';
import { FIT_MM, JOIN_MM } from './tolerance.ts';

/** Tangents closer than this (rad) meet without a corner: 1e-7 of a 100 mm parallel is 1e-5 mm, JOIN_MM. */
const SMOOTH = 1e-7;

/**
 * The line at a constant distance to the left of contiguous pieces (to the right when negative), mm.
 *
 * Lines and arcs stay exact; the rest is fitted within `tolerance`. At an outside corner both sides run on
 * straight until they meet (a corner sharper than a right angle is cut off square at the distance);
 * at an inside corner both are trimmed where they cross.
 * @param closed the last piece ends where the first starts, and their corner counts too
 * @throws Fault `parallel.folds` where the pieces bend too sharply for the distance, `parallel.no-room`
 *   where a piece is too short for its corner
 */
export const parallelPath = (
  pieces: readonly Piece[],
  away: number,
  closed: boolean,
  tolerance = FIT_MM,
): Segment[] =>
  parallelSides(pieces, away, closed, tolerance).flatMap(({ side, corner }) => [...side, ...corner]);

/** The same piece by piece: what runs beside each, and what joins it to the next. */
export function parallelSides(
  pieces: readonly Piece[],
  away: number,
  closed: boolean,
  tolerance = FIT_MM,
): { side: Segment[]; corner: Segment[] }[] {
  if (away === 0) throw new Error('parallel: the distance must not be 0');
  for (const piece of pieces) mustNotFold(piece, away);
  const sides = pieces.map((piece) => new Side(piece, away));
  const joins: Point[][] = [];
  sides.forEach((side, i) => {
    const next = sides[i + 1] ?? (closed ? sides[0] : undefined);
    joins.push(next ? corner(side, next, away) : []);
  });
  return sides.map((side, i) => ({ side: side.segments(tolerance), corner: polyline(joins[i]!) }));
}

/** One piece's parallel, with how much of it is left after its corners are trimmed. */
class Side {
  from = 0;
  to = 1;
  readonly at: (u: number) => Place;

  constructor(
    readonly piece: Piece,
    private readonly away: number,
  ) {
    const base = along(piece);
    this.at = (u) => {
      const place = base(u);
      const stretch = 1 - place.curvature * away;
      const { x, y } = add(place, scale(leftOf(direction(place.angle)), away));
      return {
        x,
        y,
        angle: place.angle,
        curvature: place.curvature / stretch,
        speed: place.speed * stretch,
      };
    };
  }

  segments(tolerance: number): Segment[] {
    if (this.to - this.from <= 0) throw noRoom(this.at(0), this.away);
    const { piece, from, to } = this;
    if (piece.type === 'line')
      return [{ type: 'line', from: pointOf(this.at(from)), to: pointOf(this.at(to)) }];
    if (piece.type === 'arc') return [this.arc(piece)];
    return fitCubics(this.at, from, to, tolerance);
  }

  private arc(arc: ArcSegment): Segment {
    return {
      ...arc,
      radius: arc.radius - Math.sign(arc.sweep) * this.away,
      start: arc.start + arc.sweep * this.from,
      sweep: arc.sweep * (this.to - this.from),
    };
  }
}

const polyline = (points: readonly Point[]): Segment[] =>
  points.slice(1).map((to, i) => ({ type: 'line', from: points[i]!, to }));

/** The points from one side's end to the next side's start; an inside corner trims both instead. */
function corner(before: Side, after: Side, away: number): Point[] {
  const [end, start] = [before.at(1), after.at(0)];
  const [t0, t1] = [direction(end.angle), direction(start.angle)];
  const turn = Math.atan2(cross(t0, t1), t0.x * t1.x + t0.y * t1.y);
  if (Math.abs(turn) < SMOOTH) return [];
  if (turn * away > 0) {
    trim(before, after, Math.abs(turn), Math.abs(away));
    return [];
  }
  const reach = Math.abs(away) * Math.min(Math.tan(Math.abs(turn) / 2), 1);
  const points = [
    pointOf(end),
    add(end, scale(t0, reach)),
    subtract(start, scale(t1, reach)),
    pointOf(start),
  ];
  return points.filter((p, i) => i === 0 || distance(p, points[i - 1]!) > JOIN_MM);
}

/** Newton steps to the crossing of two trimmed sides; nearly straight near a corner, they need 3 to 5. */
const MAX_STEPS = 30;

/** Cuts both sides back to where they cross. */
function trim(before: Side, after: Side, turn: number, away: number): void {
  const back = away * Math.tan(turn / 2);
  let u = 1 - back / before.at(1).speed;
  let v = back / after.at(0).speed;
  for (let i = 0; i < MAX_STEPS; i++) {
    const [p, q] = [before.at(u), after.at(v)];
    const gap = subtract(q, p);
    const [dp, dq] = [scale(direction(p.angle), p.speed), scale(direction(q.angle), q.speed)];
    const determinant = cross(dp, dq);
    u += cross(gap, dq) / determinant;
    v += cross(gap, dp) / determinant;
    if (!(u > 0 && u < 1 && v > 0 && v < 1)) break;
    if (distance(p, q) < JOIN_MM / 10) {
      before.to = u;
      after.from = v;
      return;
    }
  }
  throw noRoom(segmentEnd(before.piece), away);
}

const noRoom = (at: Point, away: number): Fault =>
  new Fault(
    'parallel.no-room',
    (mm) =>
      `a parallel ${mm(Math.abs(away))} away does not fit into the corner at station ${mm(at.x)}: the run there is too short. ` +
      'Use a smaller distance, or smooth that corner.',
  );

/** A parallel folds back where its distance reaches the radius on its side. */
function mustNotFold(piece: Piece, away: number): void {
  if (piece.type === 'line') return;
  const sharpest = leastAlong(piece, ({ curvature }) => -curvature * Math.sign(away));
  if (1 - sharpest.curvature * away > 0) return;
  throw new Fault(
    'parallel.folds',
    (mm) =>
      `a parallel ${mm(Math.abs(away))} away folds back at station ${mm(sharpest.x)}, where the line's radius is only ` +
      `${mm(1 / Math.abs(sharpest.curvature))}. Use a smaller distance, or ease the curve there.`,
  );
}
