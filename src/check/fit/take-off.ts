import type { Point } from '../../curves/geometry/point.ts';
import { Fault } from '../../units/fault.ts';
import type { Rule } from '../../units/rule.ts';
import { assertReadings, type StationReading } from '../readings/read-readings.ts';
import { readingSigma } from '../readings/reading-error.ts';
import { fitCurveKinds, type KindFit, type WrongReading } from './fit-curve-kinds.ts';
import { fairCurve, mergeStations, type SmoothedCurve } from './smoothing-spline.ts';

export interface TakeOff {
  readonly sigma: number;
  readonly outliers: readonly WrongReading[];
  /** Those kept, at rising stations; the outliers are left out of the fair curve. */
  readonly readings: readonly Point[];
  readonly fair: SmoothedCurve;
  /** Best first. */
  readonly kinds: readonly [KindFit, ...KindFit[]];
}

/** Two ends, the apex and a station on each side of the apex tell one curve from another. */
const MIN_TAKE_OFF_STATIONS = 5;

/** The fair curve, and the kinds that fit. @throws Fault `readings.none`, `readings.not-finite`, `take-off.too-few` */
export function takeOff(readings: readonly StationReading[], rule: Rule): TakeOff {
  assertReadings(readings);
  const sigma = readingSigma(rule);
  const rising = readings
    .map(({ station, offset }) => ({ x: station, y: offset }))
    .toSorted((a, b) => a.x - b.x);
  const problem = `fewer than ${MIN_TAKE_OFF_STATIONS} stations cannot show which curve it is. Measure at more stations.`;
  if (mergeStations(rising, sigma).points.length < MIN_TAKE_OFF_STATIONS)
    throw new Fault('take-off.too-few', problem);
  const first = fitKinds(rising, rising, sigma);
  // A wrong reading spoils the values that the fits start from: these start again from where it should be.
  const mended = rising.map((p) => {
    const wrong = first[0].wrong.find(({ at }) => at === p);
    return wrong ? { x: p.x, y: p.y - wrong.off } : p;
  });
  const second = first[0].wrong.length > 0 ? fitKinds(rising, mended, sigma) : first;
  const kinds = second[0].cost < first[0].cost ? second : first;
  const outliers = kinds[0].wrong.toSorted((a, b) => a.at.x - b.at.x);
  const kept = rising.filter((p) => outliers.every(({ at }) => at !== p));
  const data = mergeStations(kept, sigma);
  return { sigma, outliers, readings: data.points, fair: fairCurve(data), kinds };
}

function fitKinds(readings: readonly Point[], through: readonly Point[], sigma: number): TakeOff['kinds'] {
  const data = mergeStations(through, sigma);
  const [best, ...others] = fitCurveKinds(readings, fairCurve(data).points, sigma, data.points);
  if (!best) throw new Error('a straight line fits any readings in some way');
  return [best, ...others];
}

/** With costs this close the dearer kind is the true one about once in twelve, by Schwarz's criterion (exp(−cost/2)). */
const INDISTINGUISHABLE_COST = 5;

export const indistinguishableKinds = ({ kinds: [best, ...others] }: TakeOff): KindFit[] =>
  others.filter(({ cost }) => cost - best.cost < INDISTINGUISHABLE_COST);
