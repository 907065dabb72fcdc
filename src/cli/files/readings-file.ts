import { parseReading, readReadings, type StationReading } from '../../check/readings/read-readings.ts';
import { catchFault, type Fault, type ShowLength, throwFaults } from '../../units/fault.ts';
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
  typed: readonly string[],
  unit: Unit,
  length: ShowLength,
): MeasuredReadings {
  const faults: Fault[] = [];
  const note = (fault: Fault): void => void faults.push(fault.at('--reading'));
  const readings = typed.map((each) => catchFault(() => parseReading(each, unit), note));
  throwFaults(faults);
  return { readings: readings.filter((reading) => reading !== undefined), context: { length } };
}
