import { findUnit } from '../../units/length-unit.ts';
import { parseAngle } from '../../units/parse-angle.ts';
import { parseLength, type Sign } from '../../units/parse-length.ts';
import { quoted } from '../../units/quoted.ts';
import type { Unit } from '../../units/unit.ts';
import { didYouMean } from './did-you-mean.ts';
import type { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

const LENGTH_CURE = 'Write a length, such as 28 3/4 or 730 mm.';
/** No line break, no other control character: the name is printed on one line. */
const ONE_LINE = /^[^\p{Cc}\u2028\u2029]*$/u;

export function readLength(entry: YamlNode, unit: Unit, sign: Sign = 'any'): number | undefined {
  const typed = entry.text(LENGTH_CURE);
  return typed === undefined ? undefined : entry.attempt(() => parseLength(typed, unit, sign));
}

/** A length (mm) that may be left out. One that cannot be read has its fault already. */
export const readOptionalLength = (
  mapping: YamlMapping,
  name: string,
  unit: Unit,
  sign: Sign = 'positive',
): number | undefined => mapping.read(name, (entry) => readLength(entry, unit, sign));

/** Radians, between -π/2 and π/2. */
export function readAngle(entry: YamlNode, upTo?: '90'): number | undefined {
  const typed = entry.text('Write an angle, such as 4, 7 1/2° or 1 in 6.');
  return typed === undefined ? undefined : entry.attempt(() => parseAngle(typed, upTo));
}

/** A whole number from 1 to `most`. */
export function readCount(entry: YamlNode, most: number): number | undefined {
  const cure = `Write a whole number from 1 to ${most}.`;
  const typed = entry.text(cure);
  if (typed === undefined) return undefined;
  const count = /^\d{1,9}$/.test(typed) ? Number(typed) : 0;
  if (count >= 1 && count <= most) return count;
  return entry.report('job.count', `${quoted(typed)} is not allowed here. ${cure}`);
}

/** A name on one line, up to `most` characters. */
export function readName(entry: YamlNode, most: number): string | undefined {
  const typed = readText(entry, most);
  if (typed === undefined || ONE_LINE.test(typed)) return typed;
  return entry.report('job.text', 'the name has a line break or a tab. Write it on one line, without tabs.');
}

/** Text of one or more lines, up to `most` characters. */
export function readText(entry: YamlNode, most: number): string | undefined {
  const typed = entry.text(`Write some text, up to ${most} characters.`);
  if (typed === undefined || [...typed].length <= most) return typed;
  return entry.report('job.text', `the text is too long. Use ${most} characters or fewer.`);
}

export function readWord<Word extends string>(
  entry: YamlNode,
  words: readonly Word[],
  cure = (typed: string): string => didYouMean(typed, words),
): Word | undefined {
  const typed = entry.text(`Write ${words.join(' or ')}.`);
  const word = words.find((each) => each === typed);
  if (typed === undefined || word !== undefined) return word;
  return entry.report('job.unknown-word', `${quoted(typed)} is not one of the choices. ${cure(typed)}`);
}

/** An optional key of the job is absent, never undefined. */
export function omitUndefined<T extends object>(values: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const kept = Object.entries(values).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept) as { [K in keyof T]?: Exclude<T[K], undefined> };
}

export const JOB_UNITS: readonly Unit[] = ['in', 'mm'];

/** "cm" is not a typing mistake for "mm", which would make the part ten times too small. */
export function suggestUnit(typed: string): string {
  const unit = findUnit(typed.trim().toLowerCase());
  if (unit === undefined) return didYouMean(typed, JOB_UNITS);
  if (unit === 'in' || unit === 'mm') return `Write ${unit}.`;
  return `Write in or mm here. A single length can still have its own unit, such as 2 ${unit}.`;
}
