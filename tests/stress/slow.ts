import type { ElasticaSegment } from '../../src/curves/piece.ts';

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
