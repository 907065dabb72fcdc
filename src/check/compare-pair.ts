import type { Deviation } from './check-edge.ts';
import { type Misfit, misfitOf } from './fit/rigid-fit.ts';
import type { StationReading } from './readings/read-readings.ts';

export interface PairCheck extends Misfit {
  readonly readings: readonly { readonly station: number; readonly difference: number }[];
}

export const mirrorReadings = (readings: readonly StationReading[]): StationReading[] =>
  readings.map((reading) => ({ ...reading, offset: -reading.offset }));

/** At the second's stations; deviations interpolate better than offsets. Undefined where no station of it is within. */
export function comparePair(
  first: readonly Deviation[],
  second: readonly Deviation[],
): PairCheck | undefined {
  const rising = first.toSorted((a, b) => a.station - b.station);
  const readings = second.flatMap(({ station, proud }) => {
    const other = interpolateProud(rising, station);
    return other === undefined ? [] : [{ station, difference: proud - other }];
  });
  if (readings.length === 0) return undefined;
  return { readings, ...misfitOf(readings.map(({ difference }) => difference)) };
}

function interpolateProud(rising: readonly Deviation[], station: number): number | undefined {
  const after = rising.findIndex((each) => each.station >= station);
  const [b, a] = [rising[after], rising[after - 1]];
  if (!b) return undefined;
  if (b.station === station || !a) return b.station === station ? b.proud : undefined;
  return a.proud + ((b.proud - a.proud) * (station - a.station)) / (b.station - a.station);
}
