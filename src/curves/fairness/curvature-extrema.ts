import { firstOf, itemAt, lastOf, neighbors } from '../../units/checked.ts';
import type { ShowLength } from '../../units/fault.ts';
import { type Point, toPoint } from '../geometry/point.ts';
import type { Tooth } from './curvature-comb.ts';
import { describeRadius, maxCurvature, RIPPLE, VISIBLE_MM, waveHeight } from './curvature-comb.ts';
import type { Remark } from './remark.ts';

/** A hard spot: a change by half the largest curvature in a twentieth of the run, as by a nail a tenth from an end. */
const [QUICK_CHANGE, QUICK_SHARE] = [0.5, 1 / 20];
/** A flat spot: between two maxima under a quarter of the mean, as half an ellipse that rises a sixth of its chord. */
const FLAT_SHARE = 0.25;
/** A dip that counts, below half the lesser maximum beside it; two are lumpy. A batten on a circle dips by a third. */
const [DIP_SHARE, MAX_DIPS] = [0.5, 1];

/** Extrema of the curvature that are more than a ripple. */
export function curvatureExtrema(sweep: readonly Tooth[]): Tooth[] {
  const ripple = RIPPLE * maxCurvature(sweep);
  const found: Tooth[] = [];
  let [low, high] = [firstOf(sweep), firstOf(sweep)];
  let trend = 0;
  for (const tooth of sweep) {
    if (tooth.curvature > high.curvature) high = tooth;
    if (tooth.curvature < low.curvature) low = tooth;
    if (trend >= 0 && high.curvature - tooth.curvature > ripple) {
      if (trend > 0) found.push(high);
      [trend, low] = [-1, tooth];
      high = tooth;
    } else if (trend <= 0 && tooth.curvature - low.curvature > ripple) {
      if (trend < 0) found.push(low);
      [trend, high] = [1, tooth];
      low = tooth;
    }
  }
  return found;
}

/** The fastest change inside a run, where it is too fast; joins are judged by themselves. */
export function quickChangeRemark(teeth: readonly Tooth[], straight: number): Remark[] {
  const peak = maxCurvature(teeth);
  const reach = (lastOf(teeth).along - firstOf(teeth).along) * QUICK_SHARE;
  if (peak < straight) return [];
  let worst: { one: Tooth; other: Tooth; change: number } | undefined;
  let start = 0;
  for (const other of teeth) {
    while (itemAt(teeth, start).along < other.along - reach) start++;
    for (let i = start; teeth[i] !== other; i++) {
      const one = itemAt(teeth, i);
      const change = Math.abs(other.curvature - one.curvature) / peak;
      const isSeen = waveHeight((change * peak) / 2, 2 * reach) >= VISIBLE_MM;
      if (isSeen && change > (worst?.change ?? QUICK_CHANGE)) worst = { one, other, change };
    }
  }
  if (!worst) return [];
  const { one, other } = worst;
  const sharper = Math.abs(one.curvature) > Math.abs(other.curvature) ? one : other;
  const [first, second] = [describeRadius(one, peak), describeRadius(other, peak)];
  const message = (mm: ShowLength): string =>
    `hard spot at ${mm(sharper.x)}: the curve changes from ${first(mm)} to ${second(mm)} within ${mm(other.along - one.along)}`;
  return [{ code: 'fairness.hard-spot', at: toPoint(sharper), message }];
}

/** Flat spots and lumpy lines: less bend between two places of more bend on the same side. */
export function flatAndLumpyRemarks(
  sweep: readonly Tooth[],
  straight: number,
  reverses: readonly Point[],
): Remark[] {
  if (maxCurvature(sweep) < straight) return [];
  const dips = curvatureDips(sweep, reverses);
  const flats = dips.filter(({ flat }) => flat);
  const remarks = flats.map(({ at, from, to }): Remark => {
    const message = (mm: ShowLength): string =>
      `flat spot at ${mm(at.x)}: from ${mm(from.x)} to ${mm(to.x)} the curve bends more, then less, then more`;
    return { code: 'fairness.flat-spot', at: toPoint(at), message };
  });
  if (dips.length <= MAX_DIPS) return remarks;
  const [{ at, from }, { to }] = [firstOf(dips), lastOf(dips)];
  const message = (mm: ShowLength): string =>
    `lumpy from ${mm(from.x)} to ${mm(to.x)}: the curve bends less, then more, ${dips.length} times`;
  return [...remarks, { code: 'fairness.lumpy', at: toPoint(at), message }];
}

/** Where the curve slackens, or turns back by less than is seen: a reverse that is seen is told as one. */
function curvatureDips(sweep: readonly Tooth[], reverses: readonly Point[]) {
  const ripple = RIPPLE * maxCurvature(sweep);
  const turns = [firstOf(sweep), ...curvatureExtrema(sweep), lastOf(sweep)];
  return turns.slice(1, -1).flatMap((at, i) => {
    const [before, after] = [itemAt(turns, i), itemAt(turns, i + 2)];
    const lesser = Math.min(Math.abs(before.curvature), Math.abs(after.curvature));
    const left = at.curvature * Math.sign(before.curvature);
    const isReverse = left < 0 && reverses.some(({ x }) => (x - before.x) * (x - after.x) < 0);
    if (before.curvature * after.curvature <= 0 || lesser < ripple || isReverse) return [];
    const slack = lesser - left;
    const isSeen = waveHeight(slack / 2, after.along - before.along) >= VISIBLE_MM;
    if (left >= DIP_SHARE * lesser || !isSeen) return [];
    const mean = meanCurvature(sweep.slice(sweep.indexOf(before), sweep.indexOf(after) + 1));
    return [{ at, from: before, to: after, flat: left < FLAT_SHARE * Math.abs(mean) }];
  });
}

function meanCurvature(teeth: readonly Tooth[]): number {
  let turned = 0;
  for (const [a, b] of neighbors(teeth)) turned += ((a.curvature + b.curvature) / 2) * (b.along - a.along);
  return turned / (lastOf(teeth).along - firstOf(teeth).along);
}
