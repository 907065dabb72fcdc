import type { Point } from '../curves/point.ts';
import { Fault } from '../units/fault.ts';
import type { Rule } from '../units/rule.ts';
import { fitKinds, type KindFit } from './fit-kinds.ts';
import { type Outlier, sortOut } from './outliers.ts';
import { readingSigma } from './reading-error.ts';
import { mustBeReadings, type Reading } from './readings.ts';
import { fairCurve, gathered, type Smoothed } from './smoothing-spline.ts';

/** A curve taken off an existing part. */
export interface TakeOff {
  /** Standard deviation that one reading is taken to have, mm. */
  readonly sigma: number;
  /** Bad readings, left out of all that follows. */
  readonly outliers: readonly Outlier[];
  /** The readings kept, at rising stations, one a station. */
  readonly readings: readonly Point[];
  /** The fair curve through them. */
  readonly fair: Smoothed;
  /** Every kind of curve laid on them, best first. */
  readonly kinds: readonly [KindFit, ...KindFit[]];
}

/** Ends, apex and something to each side to tell one curve from another. */
const LEAST_STATIONS = 5;

/**
 * The fair curve through readings of an existing part, and the kind of curve that fits them best.
 * @throws Fault `readings.none`, `readings.not-finite`, `take-off.too-few` with fewer than five stations
 */
export function takeOff(readings: readonly Reading[], rule: Rule): TakeOff {
  mustBeReadings(readings);
  const sigma = readingSigma(rule);
  const measured = readings.map(({ station, offset }) => ({ x: station, y: offset }));
  if (gathered(measured, sigma).points.length < LEAST_STATIONS)
    throw new Fault(
      'take-off.too-few',
      `fewer than ${LEAST_STATIONS} stations do not tell one curve from another. Measure at more stations.`,
    );
  const { good, bad } = sortOut(
    measured.toSorted((a, b) => a.x - b.x),
    sigma,
  );
  const data = gathered(good, sigma);
  if (data.points.length < LEAST_STATIONS)
    throw new Fault('take-off.too-few', 'too few good readings are left. Measure again.');
  const fair = fairCurve(data);
  const [best, ...others] = fitKinds(data.points, fair.points, sigma);
  if (!best) throw new Error('a straight line fits any readings in some way');
  return { sigma, outliers: bad, readings: data.points, fair, kinds: [best, ...others] };
}

/**
 * Costs closer than this are alike: about one chance in twelve that the dearer kind is the true one, by
 * Schwarz's criterion (its exponential by half).
 */
const ALIKE = 5;

/** The kinds that the readings cannot tell from the best one. */
export const alike = ({ kinds: [best, ...others] }: TakeOff): KindFit[] =>
  others.filter(({ cost }) => cost - best.cost < ALIKE);
