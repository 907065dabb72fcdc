import { parseReading, type Reading, readReadings } from '../../check/readings/read-readings.ts';
import { Fault, Faults, type ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';
import { plainSpeaker, type Speaker, speakingOf } from '../output/report-errors.ts';
import { readText } from './atomic-files.ts';

/** Readings, and how to speak of them. */
export interface Measured {
  readonly readings: readonly Reading[];
  readonly speaker: Speaker;
}

/** The readings of a file; what is wrong with them is told by file, line and column. */
export function measuredIn(file: string, unit: Unit, length: ShowLength): Measured {
  const speaker: Speaker = { ...plainSpeaker, file, length };
  const text = readText(file);
  return { readings: speakingOf(speaker, () => readReadings(text, unit)), speaker };
}

/** The readings given one by one as --reading 6=1/2; all that is wrong with them in one go. */
export function measuredOnLine(typed: readonly string[], unit: Unit, length: ShowLength): Measured {
  const faults: Fault[] = [];
  const readings = typed.flatMap((each): Reading[] => {
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
  return { readings, speaker: { ...plainSpeaker, length } };
}
