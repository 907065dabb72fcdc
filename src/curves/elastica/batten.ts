import { type Curve, makeCurve } from '../curve.ts';
import type { Point } from '../geometry/point.ts';
import { assertBetween, assertDistinct } from '../validate.ts';
import { nailForApex } from './nail-for-apex.ts';
import { FREE_ENDS, stripSpans } from './solve-strip.ts';

export type BattenBy =
  | { readonly nail: Point }
  | { readonly through: readonly Point[] }
  | { readonly apex: Point };

/**
 * The curve of a uniform batten over a pin at each end and nails between: the shape of least bending energy, with the
 * batten free to slide and every pin without friction. Each end is free, or held at an angle as in a sleeve. Exact to
 * 1e-9 of the chord or better.
 *
 * By `nail` or `through` it touches those points; its apex is elsewhere, in the longer span, unless a single nail is
 * in the middle. By `apex` the nail is solved for that puts the apex, the point farthest from the chord, there.
 * @throws Fault `curve.same-point`, `curve.not-finite`, `batten.out-of-order`, `batten.too-high`,
 *   `batten.no-such-apex`, `batten.not-found`
 */
export function batten(from: Point, to: Point, by: BattenBy, ends = FREE_ENDS): Curve {
  assertDistinct(from, to, 'the two ends of the batten');
  if ('apex' in by) {
    assertBetween(from, by.apex, to);
    const { nail, spans } = nailForApex(from, to, by.apex, ends);
    return makeCurve({ kind: 'batten', from, to, pins: [from, nail, to], exact: spans });
  }
  if ('nail' in by) assertBetween(from, by.nail, to);
  const pins = [from, ...('nail' in by ? [by.nail] : by.through), to];
  return makeCurve({ kind: 'batten', from, to, pins, exact: stripSpans(pins, ends) });
}
