import { parseReading, readReadings, type StationReading } from '../../check/readings/read-readings.ts';
import { Fault, Faults, type ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';
import { type FaultContext, withFaultContext } from '../output/report-errors.ts';
import { readText } from './read-text.ts';

export interface MeasuredReadings {
  readonly readings: readonly StationReading[];
  readonly context: FaultContext;
}

export function readReadingsFile(file: string, unit: Unit, length: ShowLength): MeasuredReadings {
  const context = { file, length };
  const text = readText(file);
  return { readings: withFaultContext(context, () => readReadings(text, unit)), context };
}

/** The readings given one by one as --reading 6=1/2, or all mistakes in them. */
export function parseReadingOptions(
  options: readonly string[],
  unit: Unit,
  length: ShowLength,
): MeasuredReadings {
  const faults: Fault[] = [];
  const readings = options.flatMap((each): StationReading[] => {
    try {
      return [parseReading(each, unit)];
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      faults.push(error.at('--reading'));
      return [];
    }
  });
  const [first, ...rest] = faults;
  if (first) throw new Faults([first, ...rest]);
  return { readings, context: { length } };
}
