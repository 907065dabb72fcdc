import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { ElasticaSegment, Piece } from '../../src/curves/geometry/pieces/piece.ts';
import type { Point } from '../../src/curves/geometry/point.ts';

/** The end of a stretch of strip. */
export interface SlowEnd {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
  readonly curvature: number;
}

/** A step is this part of a radian's turn at most; Runge and Kutta's error is its fifth power. */
const TURN = 0.004;
const FEWEST_STEPS = 200;

/**
 * A stretch of strip run from its start by the classic method of Runge and Kutta on κ″ = −κ³/2 − thrust·κ,
 * in shares of its length: slow, and nothing of the series that the program uses.
 */
export function slowEnd({
  from,
  angle,
  curvature,
  curvatureRate,
  length,
  thrust = 0,
}: ElasticaSegment): SlowEnd {
  const pace = Math.sqrt(Math.hypot(curvatureRate, curvature ** 2 / 2 + thrust));
  const steps = Math.max(FEWEST_STEPS, Math.ceil((pace * length) / TURN));
  const h = 1 / steps;
  const push = thrust * length ** 2;
  const slope = ([, , a, k, r]: State): State => [Math.cos(a), Math.sin(a), k, r, -(k ** 3) / 2 - push * k];
  let now: State = [0, 0, angle, curvature * length, curvatureRate * length ** 2];
  for (let i = 0; i < steps; i++) {
    const a = slope(now);
    const b = slope(moved(now, a, h / 2));
    const c = slope(moved(now, b, h / 2));
    const d = slope(moved(now, c, h));
    now = now.map(
      (value, j) => value + (h / 6) * (a[j]! + 2 * b[j]! + 2 * c[j]! + d[j]!),
    ) as unknown as State;
  }
  const [x, y, turned, bent] = now;
  return { x: from.x + x * length, y: from.y + y * length, angle: turned, curvature: bent / length };
}

type State = readonly [x: number, y: number, angle: number, curvature: number, rate: number];
const moved = (state: State, by: State, h: number): State =>
  state.map((value, j) => value + h * by[j]!) as unknown as State;

/** Links that each piece is taken for. */
const LINKS = 600;

/** How far a point lies from some pieces, mm, by many short links. */
export function slowDistance(pieces: readonly Piece[]): (p: Point) => number {
  const ways = pieces.map((piece) => {
    const at = paramCurve(piece);
    return Array.from({ length: LINKS + 1 }, (_, i) => at(i / LINKS));
  });
  return (p) => Math.min(...ways.map((way) => offWay(p, way)));
}

function offWay(p: Point, way: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < way.length; i++) {
    const [a, b] = [way[i - 1]!, way[i]!];
    const [x, y] = [b.x - a.x, b.y - a.y];
    const share = Math.min(Math.max(((p.x - a.x) * x + (p.y - a.y) * y) / (x * x + y * y), 0), 1);
    least = Math.min(least, Math.hypot(a.x + x * share - p.x, a.y + y * share - p.y));
  }
  return least;
}

/** How far a link may lie from its curve, mm: chord²·curvature/8. */
export const sagitta = (piece: Piece): number => {
  const at = paramCurve(piece);
  const most = Math.max(...Array.from({ length: 33 }, (_, i) => Math.abs(at(i / 32).curvature)));
  return (at(0).speed / LINKS) ** 2 * most * 0.25;
};
