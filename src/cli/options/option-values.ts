import { Fault } from '../../units/fault.ts';
import { parseLength, type Sign } from '../../units/parse-length.ts';
import type { Unit } from '../../units/unit.ts';

/** Reads what an option holds; what is wrong with it is placed at the option. */
export function atOption<T>(option: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof Fault ? error.at(option) : error;
  }
}

/** An option of which nothing would come, as those that have a use for it are not typed. */
export const optionOwnerFault = (option: string, ...users: readonly string[]): Fault =>
  new Fault(
    'command.belongs',
    `--${option} belongs to ${users.map((user) => `--${user}`).join(' or ')}. Add that, or leave it out.`,
  );

/** The length typed after an option, in the job's unit unless it carries its own. */
export const parseLengthOption = (option: string, typed: string, unit: Unit, sign: Sign = 'any'): number =>
  atOption(option, () => parseLength(typed, unit, sign));
