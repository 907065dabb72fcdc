import type { Point } from '../../curves/geometry/point.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
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
  if (mergeStations(rising, sigma).points.length < MIN_TAKE_OFF_STATIONS)
    throw new Fault(
      'take-off.too-few',
      `fewer than ${MIN_TAKE_OFF_STATIONS} stations do not tell one curve from another. Measure at more stations.`,
    );
  const first = fitKinds(rising, fairThrough(rising, sigma), sigma);
  const { wrong } = first[0];
  // A wrong reading spoils the values that the fits start from.
  const kinds =
    wrong.length === 0 ? first : bestFirst(first, fitKinds(rising, fairThrough(rising, sigma, wrong), sigma));
  const outliers = kinds[0].wrong.toSorted((a, b) => a.at.x - b.at.x);
  const kept = rising.filter((p) => outliers.every(({ at }) => at !== p));
  const data = mergeStations(kept, sigma);
  return { sigma, outliers, readings: data.points, fair: fairCurve(data), kinds };
}

type Kinds = TakeOff['kinds'];

function fitKinds(readings: readonly Point[], start: readonly Point[], sigma: number): Kinds {
  const [best, ...others] = fitCurveKinds(readings, start, sigma);
  if (!best) throw new Error('a straight line fits any readings in some way');
  return [best, ...others];
}

/** The better fit of each kind. */
function bestFirst(first: Kinds, second: Kinds): Kinds {
  const [best, ...others] = [...first, ...second].toSorted((a, b) => a.cost - b.cost);
  const seen = new Set([best?.kind]);
  const rest = others.filter(({ kind }) => !seen.has(kind) && seen.add(kind));
  return [best ?? first[0], ...rest];
}

/** Values to start fits from at all stations: those of the fair curve, carried on straight to an end that is left out. */
function fairThrough(
  readings: readonly Point[],
  sigma: number,
  wrong: readonly WrongReading[] = [],
): Point[] {
  const kept = readings.filter((p) => wrong.every(({ at }) => at !== p));
  const { points } = fairCurve(mergeStations(kept, sigma));
  const carriedOn = (x: number, a: Point, b: Point): Point[] =>
    x === a.x ? [] : [{ x, y: a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x) }];
  return [
    ...carriedOn(firstOf(readings).x, itemAt(points, 0), itemAt(points, 1)),
    ...points,
    ...carriedOn(lastOf(readings).x, itemAt(points, points.length - 1), itemAt(points, points.length - 2)),
  ];
}

/** With costs this close the dearer kind is the true one about once in twelve, by Schwarz's criterion (exp(−cost/2)). */
const INDISTINGUISHABLE_COST = 5;

export const indistinguishableKinds = ({ kinds: [best, ...others] }: TakeOff): KindFit[] =>
  others.filter(({ cost }) => cost - best.cost < INDISTINGUISHABLE_COST);
