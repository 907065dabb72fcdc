import Fraction from 'fraction.js';
import { toDouble } from './exact-fraction.ts';
import { Fault, type ShowLength } from './fault.ts';
import { findUnit, type LengthUnit, MM_IN } from './length-unit.ts';
import { parseNumber } from './parse-number.ts';
import { quoted } from './quoted.ts';
import { type MakeTextFault, splitTyped, textFaultMaker } from './split-typed.ts';
import type { Unit } from './unit.ts';

export type Sign = 'any' | 'not-negative' | 'positive';

/** 1 km. A longer length is a mistake. Up to here a double still resolves 1e-9 mm. */
export const MAX_LENGTH_MM = 1e6;

const EXAMPLE = '28 3/4 or 730 mm';

/**
 * A length (mm) as people type it: `28 3/4`, `28-3/4"`, `2' 4 1/2"`, `2'-4"`, `2ft 4in`, `.75`, `12½`, `730 mm`, `73cm`.
 * A space or a hyphen joins a fraction to its whole number. After feet a bare number is in inches, less than 12.
 * Rounded once from the exact fraction: `1 1/2 in` and `38.1 mm` give the same double. Never -0.
 *
 * @throws Fault `length.…`; `length.ambiguous` where it can be read in two ways, as `1 1`, `1.5 1/2` or `28 - 3/4`
 */
export function parseLength(text: string, unit: Unit, sign: Sign = 'any'): number {
  const key = `${unit} ${sign} ${text}`;
  const known = parsedLengths.get(key);
  if (known !== undefined) return known;
  const mm = parseUncached(text, unit, sign);
  if (parsedLengths.size >= MAX_CACHED) parsedLengths.clear();
  parsedLengths.set(key, mm);
  return mm;
}

/** A drag reads the same job in every frame, with all but two lengths unchanged. */
const parsedLengths = new Map<string, number>();
/** More than most jobs hold, and still small. */
const MAX_CACHED = 1000;

function parseUncached(text: string, unit: Unit, sign: Sign): number {
  const complain = textFaultMaker('length', text);
  const { negative, pieces } = splitTyped(text, EXAMPLE, complain);
  const size = sumMeasures(parseMeasures(pieces, complain), unit, complain);
  if (size.gt(MAX_LENGTH_MM)) {
    const cure = (length: ShowLength) => `Use ${length(MAX_LENGTH_MM)} or less, and check the unit.`;
    throw new Fault('length.too-large', (length) => `${quoted(text)} is too long. ${cure(length)}`);
  }
  assertSign(negative, size, sign, complain);
  return toDouble(negative ? size.neg() : size);
}

/** The finest parts of an inch that rules show: 128ths, 96ths on old squares, 1000ths of decimals. */
const RULE_PARTS = [384, 1000];

/** A number of inches with a fraction that is on some rule: "7/63" is a typing mistake for "7/64". */
function parseInches(text: string, complain: MakeTextFault): Fraction {
  const number = parseNumber(text, complain);
  const [, above, below] = /(\d+)\/(\d+)/.exec(text) ?? [];
  const parts = Number(below ?? 1);
  if (RULE_PARTS.some((most) => most % parts === 0)) return number;
  const near = `${above}/${2 ** Math.min(6, Math.round(Math.log2(parts)))}`;
  const cure = `Use a fraction such as ${near}`;
  throw complain('odd-fraction', `has a fraction in 1/${below}, which is not on any rule`, cure);
}

/** Numbers as typed, each with the unit that follows it, if any. */
type Measures = readonly { readonly number: string; readonly unit: LengthUnit | undefined }[];

function parseMeasures(pieces: readonly string[], complain: MakeTextFault): Measures {
  const measures: Measures[number][] = [];
  for (let i = 0; i < pieces.length; i += 2) {
    const number = pieces[i] ?? '';
    const word = pieces[i + 1];
    if (word !== undefined) measures.push({ number, unit: knownUnit(word, number, complain) });
    else if (number.trim() !== '') measures.push({ number, unit: undefined });
  }
  return measures;
}

function knownUnit(word: string, number: string, complain: MakeTextFault): LengthUnit {
  const unit = findUnit(word);
  if (unit !== undefined) return unit;
  if (/[^\p{L}'"°]/u.test(word)) {
    const wrong = `contains ${quoted(word)}, which does not belong in a length`;
    throw complain('not-a-number', wrong, `Write a length, such as ${EXAMPLE}`);
  }
  const value = /\d/.test(number) ? number.trim() : '12';
  const cure = `Use in, ft, mm, cm or m, such as ${value}" or ${value} mm`;
  throw complain('unknown-unit', `contains ${quoted(word)}, which is not a unit of length`, cure);
}

function sumMeasures(measures: Measures, unit: Unit, complain: MakeTextFault): Fraction {
  const [first, second] = measures;
  if (first === undefined)
    throw complain('not-a-number', 'has no number', `Write a length, such as ${EXAMPLE}`);
  const own = first.unit ?? unit;
  if (second === undefined)
    return (own === 'in' ? parseInches : parseNumber)(first.number, complain).mul(MM_IN[own]);
  const inInches = second.unit === 'in' || second.unit === undefined;
  if (measures.length === 2 && first.unit === 'ft' && inInches)
    return feetAndInches(first.number, second.number, complain);
  throw mixedLengthFault(measures, unit, complain);
}

function feetAndInches(feetText: string, inchText: string, complain: MakeTextFault): Fraction {
  if (/^ -[^ ]/.test(inchText)) {
    const cure = `Write ${feetText.trim()}'-${inchText.slice(2)}"`;
    throw complain('ambiguous', 'has a minus or a hyphen before the inches', cure);
  }
  const feet = parseNumber(feetText, complain);
  const inches = parseInches(inchText.replace(/^ ?- ?/, ''), complain);
  const whole = feet.mul(12).add(inches);
  // As on drawings: feet and a fraction have a zero for the whole inches.
  if (feet.gt(0) && /^ ?-? ?\d+\/\d+ ?$/.test(inchText)) {
    const [feetOf, part] = [feetText.trim(), inchText.replace(/^ ?-? ?/, '').trim()];
    const cure = `Write ${feetOf} ${part}" for inches or ${feetOf}' 0 ${part}" for feet`;
    throw complain('ambiguous', "has feet (') directly before a fraction", cure);
  }
  if (feet.d === 1n && inches.lt(12)) return whole.mul(MM_IN.in);
  const wrong =
    feet.d === 1n ? 'has 12 inches or more after the feet' : 'has a fraction of a foot before the inches';
  throw complain('feet-and-inches', wrong, `Write ${formatFeet(whole)} or ${whole.toFraction(true)}"`);
}

const formatFeet = (inches: Fraction): string =>
  `${inches.div(12).floor().toFraction()}' ${inches.mod(12).toFraction(true)}"`;

/** Several numbers that are not feet and inches: the cure is their sum in one unit. */
function mixedLengthFault(measures: Measures, unit: Unit, complain: MakeTextFault): Error {
  const sizes = measures.map((each) => parseNumber(each.number, complain).mul(MM_IN[each.unit ?? unit]));
  const sum = sizes.reduce((total, size) => total.add(size), new Fraction(0n));
  const units = measures.map((each) => each.unit);
  if (units.length === 2 && units[0] === 'in' && units[1] === 'ft') {
    const cure = `Write ${formatFeet(sum.div(MM_IN.in))}`;
    return complain('feet-and-inches', 'has the inches before the feet', cure);
  }
  const cure = `Write one number and one unit, such as ${Number(toDouble(sum).toFixed(3))} mm for the sum`;
  return complain('mixed-units', 'has more than one number with a unit', cure);
}

function assertSign(negative: boolean, size: Fraction, sign: Sign, complain: MakeTextFault): void {
  if (sign === 'any') return;
  const zero = size.equals(0);
  if (negative && !zero) throw complain('negative', 'is negative', 'Remove the minus sign');
  if (zero && sign === 'positive')
    throw complain('zero', 'is not larger than 0', `Use a larger length, such as ${EXAMPLE}`);
}
