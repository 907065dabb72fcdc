import { itemAt, lastOf, neighbors } from '../../units/checked.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { Curve } from '../curve.ts';
import { angleFrom, cross, direction, distance, dot, type Point, subtract } from '../geometry/point.ts';
import type { Remark } from './remark.ts';

/*
 * A nail or point that lies off the line of the others, found by leaving each out in turn, as Stone does with readings
 * ("Cross-validatory choice and assessment of statistical predictions", Journal of the Royal Statistical Society B 36,
 * 1974). The others place it by their curvature, which is even on an arc and changes evenly on a fair line.
 */

/** With fewer pins between the ends each bends the line as much as the rest, and none of them is odd. */
const MIN_INNER_PINS = 4;
/** Three quarters of 1/32 in, mm, the least called a bump. Rounding to 1/64 in puts a pin off by half as much. */
const MIN_OFF_MM = 0.6;
/** Leaving out the odd pin smooths the others' curvature by this. Tuned on tests/stress/verdicts/fairness-cases.ts. */
const MIN_GAIN = 3;
/** From this many inner pins on, the change of curvature may change evenly, too: so it does on a wave or an ellipse. */
const PINS_FOR_SECOND_ORDER = 6;

/** All pins waver where one is off by twice as much, mm, and none alone is to blame. Rounding to 1/32 in makes less. */
const MIN_WAVER_MM = 2 * MIN_OFF_MM;
/** Rounding roughens with the sixth power of the spacing: far less with every second pin left out. Tuned as above. */
const MIN_WAVER_GAIN = 8;

/** The pin of a run whose removal makes the others' line fairest, where it lies off that line. */
function oddPin({ pins }: Curve) {
  if (pins.length < MIN_INNER_PINS + 2) return undefined;
  const order = pins.length - 2 < PINS_FOR_SECOND_ORDER ? 1 : 2;
  const rough = roughness(pins, order);
  let odd: { readonly at: Point; readonly off: number; readonly gain: number } | undefined;
  for (const { at, off, others } of leftOut(pins)) {
    const gain = rough / roughness(others, order);
    if (Math.abs(off) >= MIN_OFF_MM && gain > (odd?.gain ?? MIN_GAIN)) odd = { at, off, gain };
  }
  return odd;
}

/** How far the pins waver about a smooth line, mm, where all of them are set out too coarsely; 0 where they are not. */
function waver({ pins }: Curve): number {
  if (pins.length < MIN_INNER_PINS + 2) return 0;
  const most = Math.max(...leftOut(pins).map(({ off }) => Math.abs(off)));
  if (most < MIN_WAVER_MM) return 0;
  const thinned = [0, 1].map((first) => pins.filter((_, i) => i % 2 === first));
  const rough = thinned.map((points) => roughness(points, 1));
  return roughness(pins, 1) > MIN_WAVER_GAIN * Math.max(...rough) ? most : 0;
}

/** Each inner pin, how far it lies to the left of the line of the others, mm, and these. */
const leftOut = (pins: readonly Point[]) =>
  pins.slice(1, -1).map((at, k) => {
    const others = pins.filter((_, j) => j !== k + 1);
    const off = offsetFromArc(at, itemAt(others, k), itemAt(others, k + 1), curvatureBetween(others, k + 1));
    return { at, off, others };
  });

/** Mean square of the n-th divided differences of the curvature along the points: 0 where it changes evenly. */
function roughness(points: readonly Point[], order: 1 | 2): number {
  const along = [0];
  for (const [a, b] of neighbors(points)) along.push(lastOf(along) + distance(a, b));
  let values = points.slice(2).map((c, i) => curvatureThrough(itemAt(points, i), itemAt(points, i + 1), c));
  for (let n = 1; n <= order; n++) {
    const width = (i: number): number => itemAt(along, i + 1 + n) - itemAt(along, i + 1);
    values = neighbors(values).map(([a, b], i) => (n * (b - a)) / width(i));
  }
  return values.reduce((sum, value) => sum + value ** 2, 0) / values.length;
}

/** One pin that is off the line of the others, or all of them set out too coarsely. */
export function pinRemarks(run: Curve): Remark[] {
  const what = run.kind === 'batten' ? 'nail' : 'point';
  const odd = oddPin(run);
  if (odd) {
    const message = (mm: ShowLength): string =>
      `the ${what} at ${mm(odd.at.x)} is ${mm(Math.abs(odd.off))} off the line of the others. Check its offset`;
    return [{ code: 'fairness.odd-point', at: odd.at, message }];
  }
  const off = waver(run);
  if (off === 0) return [];
  const message = (mm: ShowLength): string =>
    `the ${what}s waver about a smooth line by up to ${mm(off)}. Set them out to a finer mark, or use fewer`;
  return [{ code: 'fairness.lumpy', message }];
}

/** The curvature between points i − 1 and i: the mean of what is found at both, or near an end carried on from within. */
function curvatureBetween(points: readonly Point[], i: number): number {
  const at = (k: number): number | undefined => {
    const [before, middle, after] = [points[k - 1], points[k], points[k + 1]];
    return before && middle && after && curvatureThrough(before, middle, after);
  };
  const [left, right] = [at(i - 1), at(i)];
  if (left !== undefined && right !== undefined) return (left + right) / 2;
  const near = left ?? right ?? 0;
  const far = left === undefined ? at(i + 1) : at(i - 2);
  if (far === undefined) return near;
  const [here, within] = left === undefined ? [i, i + 1] : [i - 1, i - 2];
  const gap = distance(itemAt(points, i - 1), itemAt(points, i));
  const step = Math.max(distance(itemAt(points, here), itemAt(points, within)), gap / 2);
  return near + ((near - far) * gap) / (2 * step);
}

function curvatureThrough(a: Point, b: Point, c: Point): number {
  return (2 * cross(subtract(b, a), subtract(c, b))) / (distance(a, b) * distance(b, c) * distance(a, c));
}

/** How far p lies to the left of the arc of a curvature from a to b. */
function offsetFromArc(p: Point, a: Point, b: Point, curvature: number): number {
  const chord = distance(a, b);
  const way = direction(angleFrom(a, b));
  const out = subtract(p, a);
  const along = dot(out, way) - chord / 2;
  // No arc of more than a half circle: there its height over the chord has two values.
  const half = Math.min((Math.abs(curvature) * chord) / 2, 1);
  const bend = (2 * half) / chord;
  const inside = Math.sqrt(Math.max(0, 1 - (bend * along) ** 2));
  const height = bend === 0 ? 0 : (inside - Math.sqrt(1 - half ** 2)) / bend;
  return cross(way, out) + Math.sign(curvature) * height;
}
