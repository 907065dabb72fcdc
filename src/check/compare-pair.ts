import type { Deviation } from './check-edge.ts';
import { maxAbs, rootMeanSquare } from './fit/rigid-fit.ts';
import type { StationReading } from './readings/read-readings.ts';

/** `difference` is in mm, positive where the second part has more wood. */
export interface PairDifference {
  readonly station: number;
  readonly difference: number;
}

export interface PairCheck {
  readonly readings: readonly PairDifference[];
  readonly worst: number;
  readonly rms: number;
}

export const mirrorReadings = (readings: readonly StationReading[]): StationReading[] =>
  readings.map((reading) => ({ ...reading, offset: -reading.offset }));

/**
 * Compares the deviations of the second part with those of the first, interpolated at the second's stations.
 * Deviations are nearly straight between two readings, so interpolating them errs less than interpolating offsets.
 * @returns undefined when no station of the second lies among the first's
 */
export function comparePair(
  first: readonly Deviation[],
  second: readonly Deviation[],
): PairCheck | undefined {
  const rising = first.toSorted((a, b) => a.station - b.station);
  const readings = second.flatMap(({ station, proud }): PairDifference[] => {
    const other = interpolateProud(rising, station);
    return other === undefined ? [] : [{ station, difference: proud - other }];
  });
  if (readings.length === 0) return undefined;
  const off = readings.map(({ difference }) => difference);
  return { readings, worst: maxAbs(off), rms: rootMeanSquare(off) };
}

function interpolateProud(rising: readonly Deviation[], station: number): number | undefined {
  const after = rising.findIndex((each) => each.station >= station);
  const [b, a] = [rising[after], rising[after - 1]];
  if (!b) return undefined;
  if (b.station === station || !a) return b.station === station ? b.proud : undefined;
  return a.proud + ((b.proud - a.proud) * (station - a.station)) / (b.station - a.station);
}
