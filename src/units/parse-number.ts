import Fraction from 'fraction.js';
import { lastOf } from './checked.ts';
import type { MakeTextFault } from './split-typed.ts';

const DECIMAL = /^(?:\d+\.?\d*|\.\d+)$/;
/** "3/4", "28 3/4", "28-3/4". */
const FRACTION = /^(?:(\d+)(?: |-))?(\d+)\/(\d+)$/;

/**
 * A number without sign as makers write it, exact: "28", "28.75", ".75", "3/4", "28 3/4", "28-3/4". "28 - 3/4" may be
 * a subtraction and is refused. A fraction by itself may be improper ("5/4"); after a whole number it is a typing mistake.
 */
export function parseNumber(text: string, complain: MakeTextFault): Fraction {
  const number = text.trim();
  if (DECIMAL.test(number)) return decimal(number);
  const match = FRACTION.exec(number);
  if (match === null) throw findSlip(number, complain);
  const [, whole, above = '', below = ''] = match;
  if (/^0+$/.test(below))
    throw complain('zero-denominator', 'has a 0 below the fraction bar', 'Write a fraction such as 3/4');
  const part = new Fraction(BigInt(above), BigInt(below));
  return whole === undefined ? part : mixedNumber(new Fraction(BigInt(whole)), part, complain);
}

function decimal(digits: string): Fraction {
  const [whole = '', places = ''] = digits.split('.');
  return new Fraction(BigInt(whole + places), 10n ** BigInt(places.length));
}

function mixedNumber(whole: Fraction, part: Fraction, complain: MakeTextFault): Fraction {
  const sum = whole.add(part);
  if (part.lt(1)) return sum;
  const slip = whole.add(part.mod(1));
  const wrong = `has a fraction of 1 or more (${part.toFraction(true)}) after the whole number`;
  throw complain('improper', wrong, `Write ${sum.toFraction(true)} or ${slip.toFraction(true)}`);
}

type Cure = string | ((text: string, first: string, second: string) => string);

const TWO_NUMBERS = 'has two numbers';

/** What is wrong with text that looks like this and what to write instead, the likeliest mistake first. */
const SLIPS: readonly (readonly [RegExp, code: 'ambiguous' | 'not-a-number', wrong: string, Cure])[] = [
  [/^(\d+) ?- ?(\d+\/0*[1-9]\d*)$/, 'ambiguous', 'can mean one number or a subtraction', joinedOrLess],
  [/^\D*$/, 'not-a-number', 'has no number', 'a number such as 28 3/4'],
  [/^-|-$/, 'not-a-number', 'has a stray hyphen', (text) => text.replaceAll(/^[- ]+|[- ]+$/g, '')],
  [/\/[^ -]*\//, 'ambiguous', 'has two bars in one fraction', 'one bar, such as 28 3/4'],
  [
    /(?<![\d.])\/|\/(?![\d.])/,
    'not-a-number',
    'has a number on one side of the bar only',
    'a number on both sides, such as 3/4',
  ],
  [
    /^(\d*\.\d*)[ -]+(\d+\/0*[1-9]\d*)$/,
    'ambiguous',
    'has both a decimal and a fraction',
    (_, point, part) => `${point} or ${Number.parseInt(`0${point}`, 10)} ${part}`,
  ],
  [
    /\..*\/|\/.*\./,
    'not-a-number',
    'has a decimal point in a fraction',
    'whole numbers in the fraction, such as 3/4',
  ],
  [/\//, 'ambiguous', TWO_NUMBERS, 'one number, such as 28 3/4'],
  [
    /^(\d+) +(\d+)$/,
    'ambiguous',
    TWO_NUMBERS,
    (_, first, second) => `${first}${second}, or a whole number and a fraction such as ${first} 1/2`,
  ],
  [/[ -]/, 'ambiguous', TWO_NUMBERS, 'one number, such as 28.75 or 28 3/4'],
  [/^/, 'not-a-number', 'has more than one decimal point', 'one decimal point, such as 28.75'],
];

function findSlip(number: string, complain: MakeTextFault): Error {
  const [looks, code, wrong, cure] = SLIPS.find(([pattern]) => pattern.test(number)) ?? lastOf(SLIPS);
  const [, first = '', second = ''] = looks.exec(number) ?? [];
  return complain(code, wrong, `Write ${typeof cure === 'string' ? cure : cure(number, first, second)}`);
}

function joinedOrLess(_: string, whole: string, part: string): string {
  const less = new Fraction(BigInt(whole)).sub(part);
  return less.gte(0) ? `${whole} ${part} or ${less.toFraction(true)}` : `${whole} ${part}`;
}
