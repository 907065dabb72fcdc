import type { CurvePoint } from './evaluate.ts';
import { angleDifference } from './point.ts';

/** Where a piece turns more than an eighth between two samples, the sharpest of the turn may lie unseen between them. */
const MAX_TURN = Math.PI / 4;

/** A flat half ellipse turns square within rise/chord of its way: JOIN_MM over a kilometer is 2^-37. */
const MAX_HALVINGS = 40;

export interface CurveSample extends CurvePoint {
  readonly u: number;
}

/** Samples along a piece in equal steps of u, each halved until it turns an eighth of a turn at most. */
export function sampleAdaptively(at: (u: number) => CurvePoint, steps: number): CurveSample[] {
  const sample = (u: number): CurveSample => {
    const { x, y, angle, curvature, speed } = at(u);
    return { x, y, angle, curvature, speed, u };
  };
  let last = sample(0);
  const samples = [last];
  const advance = (to: CurveSample, halvings: number): void => {
    if (!turnsLittle(last.angle, to.angle) && halvings < MAX_HALVINGS) {
      advance(sample((last.u + to.u) / 2), halvings + 1);
      advance(to, halvings + 1);
    } else {
      samples.push(to);
      last = to;
    }
  };
  for (let i = 1; i <= steps; i++) advance(sample(i / steps), 0);
  return samples;
}

const turnsLittle = (from: number, to: number): boolean =>
  Math.abs(to - from) <= MAX_TURN || Math.abs(angleDifference(from, to)) <= MAX_TURN;
