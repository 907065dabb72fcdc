import { Fault } from '../units/fault.ts';
import { parseLength, type Sign } from '../units/length.ts';
import type { Unit } from '../units/unit.ts';

/** Reads what an option holds; what is wrong with it is placed at the option. */
export function atOption<T>(option: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof Fault ? error.at(option) : error;
  }
}

/** The length typed after an option, in the job's unit unless it carries its own. */
export const lengthAt = (option: string, typed: string, unit: Unit, sign: Sign = 'any'): number =>
  atOption(option, () => parseLength(typed, unit, sign));
