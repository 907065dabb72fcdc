import type { Point } from '../../curves/geometry/point.ts';
import { Fault } from '../../units/fault.ts';
import type { Rule } from '../../units/rule.ts';
import { type Outlier, separateOutliers } from '../readings/find-outliers.ts';
import { assertReadings, type StationReading } from '../readings/read-readings.ts';
import { readingSigma } from '../readings/reading-error.ts';
import { fitCurveKinds, type KindFit } from './fit-curve-kinds.ts';
import { fairCurve, mergeStations, type SmoothedCurve } from './smoothing-spline.ts';

export interface TakeOff {
  readonly sigma: number;
  readonly outliers: readonly Outlier[];
  /** Those kept, at rising stations; the outliers are left out of all that follows. */
  readonly readings: readonly Point[];
  readonly fair: SmoothedCurve;
  /** Best first. */
  readonly kinds: readonly [KindFit, ...KindFit[]];
}

/** Two ends, the apex and a station on each side of the apex tell one curve from another. */
const MIN_TAKE_OFF_STATIONS = 5;

/**
 * The fair curve through readings of an existing part, and the kinds of curve that fit them.
 * @throws Fault `readings.none`, `readings.not-finite`, `take-off.too-few`
 */
export function takeOff(readings: readonly StationReading[], rule: Rule): TakeOff {
  assertReadings(readings);
  const sigma = readingSigma(rule);
  const rising = readings
    .map(({ station, offset }) => ({ x: station, y: offset }))
    .toSorted((a, b) => a.x - b.x);
  const assertEnough = (points: readonly Point[], message: string): void => {
    if (mergeStations(points, sigma).points.length < MIN_TAKE_OFF_STATIONS)
      throw new Fault('take-off.too-few', message);
  };
  assertEnough(
    rising,
    `fewer than ${MIN_TAKE_OFF_STATIONS} stations do not tell one curve from another. Measure at more stations.`,
  );
  const { good, bad } = separateOutliers(rising, sigma);
  assertEnough(good, 'too few good readings are left. Measure again.');
  return restoreOutliers(good, bad, sigma);
}

function fitReadings(good: readonly Point[], sigma: number): Omit<TakeOff, 'sigma' | 'outliers'> {
  const data = mergeStations(good, sigma);
  const fair = fairCurve(data);
  const [best, ...others] = fitCurveKinds(data.points, fair.points, sigma);
  if (!best) throw new Error('a straight line fits any readings in some way');
  return { readings: data.points, fair, kinds: [best, ...others] };
}

/** A good reading raises the cost by no more than chance: the square of a normal error stays below 2² 95 times in 100. */
const MAX_RESTORE_COST = 4;
/** More outliers than this do not come from a badly judged end, and each costs a fit of every kind. */
const MAX_RESTORED = 4;

/**
 * Fits good readings and restores outliers that a kind of curve passes as well, the nearest first. Near a nail at an
 * end a parabola through the neighbors judges a reading badly, and a part must not lose its end by that.
 */
function restoreOutliers(good: readonly Point[], bad: readonly Outlier[], sigma: number): TakeOff {
  let [kept, fit] = [good, fitReadings(good, sigma)];
  const isOutlier = ({ at }: Outlier): boolean => {
    const withIt = fitReadings([...kept, at], sigma);
    if (withIt.kinds[0].cost - fit.kinds[0].cost >= MAX_RESTORE_COST) return true;
    [kept, fit] = [[...kept, at], withIt];
    return false;
  };
  const nearestFirst = bad.toSorted((a, b) => Math.abs(a.off) - Math.abs(b.off));
  const outliers = bad.length > MAX_RESTORED ? bad : nearestFirst.filter(isOutlier);
  return { sigma, outliers: outliers.toSorted((a, b) => a.at.x - b.at.x), ...fit };
}

/** With costs this close the dearer kind is the true one about once in twelve, by Schwarz's criterion (exp(−cost/2)). */
const INDISTINGUISHABLE_COST = 5;

export const indistinguishableKinds = ({ kinds: [best, ...others] }: TakeOff): KindFit[] =>
  others.filter(({ cost }) => cost - best.cost < INDISTINGUISHABLE_COST);
