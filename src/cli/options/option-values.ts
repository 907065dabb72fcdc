import { Fault } from '../../units/fault.ts';
import { parseLength, type Sign } from '../../units/parse-length.ts';
import type { Unit } from '../../units/unit.ts';

/** Reads the value of an option. A fault of it gets the option as its key. */
export function atOption<T>(option: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof Fault ? error.at(option) : error;
  }
}

export const optionOwnerFault = (option: string, ...owners: readonly string[]): Fault =>
  new Fault(
    'command.belongs',
    `--${option} belongs to ${owners.map((owner) => `--${owner}`).join(' or ')}. Add that, or leave it out.`,
  );

export const parseLengthOption = (option: string, typed: string, unit: Unit, sign: Sign = 'any'): number =>
  atOption(option, () => parseLength(typed, unit, sign));

/** The lengths among these options, by their names; absent where none is typed. "depthOfCut" is --depth-of-cut. */
export function readLengths<K extends string>(
  options: { readonly [key in NoInfer<K>]?: string },
  signs: { readonly [key in K]: Sign },
  unit: Unit,
): { [key in K]?: number } {
  const lengths: { [key in K]?: number } = {};
  for (const key in signs) {
    const typed = options[key];
    if (typed !== undefined) lengths[key] = parseLengthOption(flagOf(key), typed, unit, signs[key]);
  }
  return lengths;
}

export const flagOf = (key: string): string =>
  `--${key.replace(/[A-Z]|\d+/g, (word) => `-${word.toLowerCase()}`)}`;
