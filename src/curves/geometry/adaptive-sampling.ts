import type { CurvePoint } from './evaluate.ts';
import { angleDifference } from './point.ts';

/** Where a piece turns more than an eighth between two looks, the sharpest of the turn may lie unseen between them. */
const MAX_TURN = Math.PI / 4;

/** A flat half ellipse turns square within rise/chord of its way: JOIN_MM over a kilometre is 2^-37. */
const MAX_HALVINGS = 40;

/** A place looked at, at u of its piece. */
export interface CurveSample extends CurvePoint {
  readonly u: number;
}

/** Looks along a piece in so many equal steps, each halved until it turns an eighth of a turn at most. */
export function sampleAdaptively(at: (u: number) => CurvePoint, steps: number): CurveSample[] {
  const lookAt = (u: number): CurveSample => {
    const { x, y, angle, curvature, speed } = at(u);
    return { x, y, angle, curvature, speed, u };
  };
  const looks = [lookAt(0)];
  const step = (from: CurveSample, to: CurveSample, halved: number): void => {
    if (turnsLittle(from.angle, to.angle) || halved === MAX_HALVINGS) {
      looks.push(to);
      return;
    }
    const middle = lookAt((from.u + to.u) / 2);
    step(from, middle, halved + 1);
    step(middle, to, halved + 1);
  };
  for (let i = 1; i <= steps; i++) step(looks.at(-1)!, lookAt(i / steps), 0);
  return looks;
}

const turnsLittle = (from: number, to: number): boolean =>
  Math.abs(to - from) <= MAX_TURN || Math.abs(angleDifference(from, to)) <= MAX_TURN;
