import type { Point } from '../../curves/geometry/point.ts';
import { Fault } from '../../units/fault.ts';
import type { Rule } from '../../units/rule.ts';
import { type Outlier, separateOutliers } from '../readings/find-outliers.ts';
import { assertReadings, type StationReading } from '../readings/read-readings.ts';
import { readingSigma } from '../readings/reading-error.ts';
import { fitCurveKinds, type KindFit } from './fit-curve-kinds.ts';
import { fairCurve, mergeStations, type SmoothedCurve } from './smoothing-spline.ts';

/** A curve taken off an existing part. */
export interface TakeOff {
  readonly sigma: number;
  readonly outliers: readonly Outlier[];
  /** The readings that are kept, at rising stations; the outliers are left out of all that follows. */
  readonly readings: readonly Point[];
  readonly fair: SmoothedCurve;
  /** Every kind of curve fitted to the readings, best first. */
  readonly kinds: readonly [KindFit, ...KindFit[]];
}

/** Two ends, the apex and a station on each side of the apex tell one curve from another. */
const MIN_TAKE_OFF_STATIONS = 5;

/**
 * The fair curve through readings of an existing part, and the kind of curve that fits them best.
 * @throws Fault `readings.none`, `readings.not-finite`, `take-off.too-few` with fewer than five stations
 */
export function takeOff(readings: readonly StationReading[], rule: Rule): TakeOff {
  assertReadings(readings);
  const sigma = readingSigma(rule);
  const measured = readings.map(({ station, offset }) => ({ x: station, y: offset }));
  if (mergeStations(measured, sigma).points.length < MIN_TAKE_OFF_STATIONS)
    throw new Fault(
      'take-off.too-few',
      `fewer than ${MIN_TAKE_OFF_STATIONS} stations do not tell one curve from another. Measure at more stations.`,
    );
  const { good, bad } = separateOutliers(
    measured.toSorted((a, b) => a.x - b.x),
    sigma,
  );
  if (mergeStations(good, sigma).points.length < MIN_TAKE_OFF_STATIONS)
    throw new Fault('take-off.too-few', 'too few good readings are left. Measure again.');
  return restoreOutliers(fitReadings(good, sigma), bad, sigma);
}

type ReadingsFit = Pick<TakeOff, 'readings' | 'fair' | 'kinds'> & { readonly good: readonly Point[] };

function fitReadings(good: readonly Point[], sigma: number): ReadingsFit {
  const data = mergeStations(good, sigma);
  const fair = fairCurve(data);
  const [best, ...others] = fitCurveKinds(data.points, fair.points, sigma);
  if (!best) throw new Error('a straight line fits any readings in some way');
  return { good, readings: data.points, fair, kinds: [best, ...others] };
}

/** A good reading raises the cost by no more than chance: the square of a normal error stays below 2² 95 times in 100. */
const MAX_RESTORE_COST = 4;
/** More outliers than this do not come from a badly judged end, and each costs a fit of every kind. */
const MAX_RESTORED = 4;

/**
 * Restores outliers that a kind of curve passes as well as the other readings, the nearest first.
 * A parabola through its neighbors judges a reading at an end badly where a nail stands near, and a part must not lose
 * its end by that.
 */
function restoreOutliers(laid: ReadingsFit, bad: readonly Outlier[], sigma: number): TakeOff {
  if (bad.length > MAX_RESTORED) return toTakeOff(laid, bad, sigma);
  let best = laid;
  const outliers: Outlier[] = [];
  for (const each of bad.toSorted((a, b) => Math.abs(a.off) - Math.abs(b.off))) {
    const withIt = fitReadings([...best.good, each.at], sigma);
    if (withIt.kinds[0].cost - best.kinds[0].cost < MAX_RESTORE_COST) best = withIt;
    else outliers.push(each);
  }
  return toTakeOff(best, outliers, sigma);
}

const toTakeOff = (
  { readings, fair, kinds }: ReadingsFit,
  outliers: readonly Outlier[],
  sigma: number,
): TakeOff => ({
  sigma,
  outliers: outliers.toSorted((a, b) => a.at.x - b.at.x),
  readings,
  fair,
  kinds,
});

/** With costs this close the dearer kind is the true one about once in twelve, by Schwarz's criterion (exp(−cost/2)). */
const INDISTINGUISHABLE_COST = 5;

export const indistinguishableKinds = ({ kinds: [best, ...others] }: TakeOff): KindFit[] =>
  others.filter(({ cost }) => cost - best.cost < INDISTINGUISHABLE_COST);
