import { Fault } from '../units/fault.ts';
import { distance, type Point } from './geometry/point.ts';
import { JOIN_MM } from './geometry/tolerance.ts';

/** The ends of an empty list are undefined. @throws Fault `curve.same-point`, `curve.not-finite` */
export function assertDistinct(a: Point | undefined, b: Point | undefined, what: string): void {
  if (!a || !b || ![a.x, a.y, b.x, b.y].every(Number.isFinite))
    throw new Fault('curve.not-finite', `${what}: a coordinate is not a finite number. Use plain lengths.`);
  if (distance(a, b) < JOIN_MM)
    throw new Fault(
      'curve.same-point',
      (mm) => `${what} are the same point, at station ${mm(a.x)}. Move one of them, or remove it.`,
    );
}

export function assertBetween(from: Point, between: Point, to: Point): void {
  assertDistinct(from, between, 'the start of the batten and its inner point');
  assertDistinct(between, to, 'the inner point and the end of the batten');
}
