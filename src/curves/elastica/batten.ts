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
 * The uniform batten of least bending energy over frictionless pins, to 1e-9 of the chord; its ends free, or held as
 * in a sleeve. By `nail` or `through` it touches those points; by `apex` a nail puts the point farthest from the chord
 * there.
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
