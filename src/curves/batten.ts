import type { Curve } from './curve.ts';
import { nailForApex } from './free-apex.ts';
import { freeBatten } from './free-batten.ts';
import { curveOf, mustDiffer } from './line.ts';
import type { Point } from './point.ts';

/** What bends the strip between its ends: a nail it touches, or the apex it shall have. */
export type BattenBy = { readonly nail: Point } | { readonly apex: Point };

/**
 * The curve of a uniform springy strip (a batten) sprung over a pin at each end and one nail between:
 * the shape of least bending energy with the strip free to slide, every pin without friction.
 *
 * By `nail` the strip touches that point; its apex is elsewhere, in the longer span, unless the nail
 * stands in the middle. By `apex` the nail is sought that puts the apex (the point farthest from the
 * chord) where it is asked. Exact to 1e-9 of the chord or better.
 * @throws Fault `curve.same-point`, `curve.not-finite`, `batten.out-of-order`, `batten.too-high`,
 *   `batten.no-such-apex`, `batten.not-found`
 */
export function batten(from: Point, to: Point, by: BattenBy): Curve {
  const bent = 'nail' in by ? by.nail : by.apex;
  mustDiffer(from, to, 'the two ends of the batten');
  mustDiffer(from, bent, 'the start of the batten and the point between');
  mustDiffer(bent, to, 'the point between and the end of the batten');
  const nail = 'nail' in by ? by.nail : nailForApex(from, to, by.apex);
  return curveOf('batten', freeBatten(from, nail, to), { from, to }, [from, nail, to]);
}
