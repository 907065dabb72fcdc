import type { Curve } from '../curve.ts';
import type { Point } from '../geometry/point.ts';
import { makeCurve } from '../make-curve.ts';
import { assertDistinct } from '../validate.ts';
import { nailForApex } from './nail-for-apex.ts';
import { type StripEnds, stripSpans } from './solve-strip.ts';

export type BattenBy =
  | { readonly nail: Point }
  | { readonly through: readonly Point[] }
  | { readonly apex: Point };

const FREE: StripEnds = { start: 'free', end: 'free' };

/**
 * The curve of a uniform springy strip (a batten) over a pin at each end and nails between: the shape of
 * least bending energy with the strip free to slide, every pin without friction. Each end is free, or held at
 * an angle as in a sleeve.
 *
 * By `nail` or `through` the strip touches those points; its apex is elsewhere, in the longer span, unless a
 * single nail is in the middle. By `apex` the nail is solved for that puts the apex (the point farthest from
 * the chord) there. Exact to 1e-9 of the chord or better. `pinForces` of the exact pieces gives the force and
 * side of each pin.
 * @throws Fault `curve.same-point`, `curve.not-finite`, `batten.out-of-order`, `batten.too-high`, `batten.no-
 *   such-apex`, `batten.not-found`
 */
export function batten(from: Point, to: Point, by: BattenBy, ends = FREE): Curve {
  assertDistinct(from, to, 'the two ends of the batten');
  if ('apex' in by) {
    assertDistinctFromEnds(from, by.apex, to);
    const { nail, spans } = nailForApex(from, to, by.apex, ends);
    return makeCurve('batten', spans, { from, to }, [from, nail, to]);
  }
  if ('nail' in by) assertDistinctFromEnds(from, by.nail, to);
  const pins = [from, ...('nail' in by ? [by.nail] : by.through), to];
  return makeCurve('batten', stripSpans(pins, ends), { from, to }, pins);
}

function assertDistinctFromEnds(from: Point, between: Point, to: Point): void {
  assertDistinct(from, between, 'the start of the batten and the point between');
  assertDistinct(between, to, 'the point between and the end of the batten');
}
