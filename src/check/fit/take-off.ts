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
  /** Standard deviation that one reading is taken to have, mm. */
  readonly sigma: number;
  /** Bad readings, left out of all that follows. */
  readonly outliers: readonly Outlier[];
  /** The readings kept, at rising stations, one a station. */
  readonly readings: readonly Point[];
  /** The fair curve through them. */
  readonly fair: SmoothedCurve;
  /** Every kind of curve laid on them, best first. */
  readonly kinds: readonly [KindFit, ...KindFit[]];
}

/** Ends, apex and something to each side to tell one curve from another. */
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

/**
 * A reading that belongs to the rest costs their best kind no more than chance: the square of a normal error stays
 * below 2² 95 times in 100.
 */
const MAX_RESTORE_COST = 4;
/** More readings left out than this are no accident of an end, and each takes a fit of every kind. */
const MAX_RESTORED = 4;

/**
 * Readings left out that a kind of curve takes in with the rest go back to them, the nearest first. A parabola
 * through its neighbours judges a reading at an end badly where a nail stands near, and a part must not lose
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

/**
 * Costs closer than this are alike: about one chance in twelve that the dearer kind is the true one, by
 * Schwarz's criterion (its exponential by half).
 */
const INDISTINGUISHABLE_COST = 5;

/** The kinds that the readings cannot tell from the best one. */
export const indistinguishableKinds = ({ kinds: [best, ...others] }: TakeOff): KindFit[] =>
  others.filter(({ cost }) => cost - best.cost < INDISTINGUISHABLE_COST);
