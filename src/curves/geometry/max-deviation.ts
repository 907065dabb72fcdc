import { minimizeAmong, SAMPLES_PER_PIECE } from '../numeric/roots-and-minima.ts';
import { sampleAdaptively } from './adaptive-sampling.ts';
import { type CurvePoint, paramCurve } from './evaluate.ts';
import type { Piece } from './pieces/piece.ts';
import { direction, distance, dot, type Point, subtract } from './point.ts';
import { FIT_MM } from './tolerance.ts';

/** So far along a piece the next one may be nearer. */
const AT_END = 1 - 1e-6;

/** Newton steps to the foot of a place beside a piece: from the foot of its neighbour 2 or 3 do. */
const STEPS = 12;

/**
 * How far the farthest of some places lies off the pieces they run along, mm: measured on the result, square
 * off the exact curve. The places run from the start of the pieces to their end, none skipping a piece.
 */
export function maxDeviation(places: Iterable<Point>, pieces: readonly Piece[]): number {
  const courses = pieces.map(paramCurve);
  let farthest = 0;
  let [now, u] = [0, 0];
  for (const place of places) {
    let foot = findFootPoint(courses[now]!, place, u);
    // At the end of a piece the next may be nearer, and where the piece is far; short ones may be passed several at a time.
    while ((foot.u > AT_END || foot.off > FIT_MM) && now + 1 < courses.length) {
      const next = findFootPoint(courses[now + 1]!, place, 0);
      if (next.off > foot.off) break;
      now++;
      foot = next;
    }
    // Round the tip of a spike the places may change sides sooner than the curve does, or run back beside where it came.
    if (foot.off > FIT_MM)
      courses.forEach((at, k) => {
        const other = findFootPoint(at, place, 0);
        if (other.off < foot.off) [now, foot] = [k, other];
      });
    u = foot.u;
    farthest = Math.max(farthest, foot.off);
  }
  return farthest;
}

interface FootPoint {
  readonly u: number;
  readonly off: number;
}

function findFootPoint(at: (u: number) => CurvePoint, place: Point, near: number): FootPoint {
  let u = near;
  for (let i = 0; i < STEPS; i++) {
    const here = at(u);
    const ahead = dot(subtract(place, here), direction(here.angle)) / (here.speed || 1);
    const next = Math.min(1, Math.max(0, u + ahead));
    if (Math.abs(next - u) < 1e-9) break;
    u = next;
  }
  const off = distance(at(u), place);
  if (off <= FIT_MM) return { u, off };
  // Newton's steps run past the foot at the sharp ends of a flat half ellipse, and stay on the wrong side of a spike.
  const looks = sampleAdaptively(at, SAMPLES_PER_PIECE).map((look) => look.u);
  const { at: looked, value } = minimizeAmong((share) => distance(at(share), place), looks);
  return value < off ? { u: looked, off: value } : { u, off };
}
