import Fraction from 'fraction.js';
import type { MakeTextFault } from './text-fault.ts';

const DECIMAL = /^(?:\d+\.?\d*|\.\d+)$/;
/** "3/4", "28 3/4", "28-3/4". */
const FRACTION = /^(?:(\d+)(?: |-))?(\d+)\/(\d+)$/;

/**
 * A number without sign as makers write it, exact: "28", "28.75", ".75", "3/4", "28 3/4", "28-3/4". "28 - 3/4" may be
 * a subtraction and is refused. A fraction by itself may be improper ("5/4"); after a whole number it is a slip.
 *
 * @throws Fault `….not-a-number`, `….zero-denominator`, `….improper`, `….ambiguous`
 */
export function parseNumber(text: string, complain: MakeTextFault): Fraction {
  const number = text.trim();
  if (DECIMAL.test(number)) return decimal(number);
  const match = FRACTION.exec(number);
  if (match === null) throw whyNotANumber(number, complain);
  const [, whole, above = '', below = ''] = match;
  if (/^0+$/.test(below)) {
    throw complain('zero-denominator', 'divides by 0', 'Write a number over 0 below the bar, as in 3/4');
  }
  const part = new Fraction(BigInt(above), BigInt(below));
  return whole === undefined ? part : mixedNumber(new Fraction(BigInt(whole)), part, complain);
}

/** "28.75" is 2875/100. */
function decimal(digits: string): Fraction {
  const [whole = '', places = ''] = digits.split('.');
  return new Fraction(BigInt(whole + places), 10n ** BigInt(places.length));
}

/** "2 1/4", as it would be typed. */
const formatMixed = (value: Fraction): string => value.toFraction(true);

function mixedNumber(whole: Fraction, part: Fraction, complain: MakeTextFault): Fraction {
  const sum = whole.add(part);
  if (part.lt(1)) return sum;
  const slip = whole.add(part.mod(1));
  throw complain(
    'improper',
    `has a fraction of 1 or more (${formatMixed(part)}) after a whole number`,
    `Write ${formatMixed(sum)} or ${formatMixed(slip)}`,
  );
}

/** The likeliest slip first. */
function whyNotANumber(number: string, complain: MakeTextFault): Error {
  const subtraction = /^(\d+) ?- ?(\d+\/0*[1-9]\d*)$/.exec(number);
  if (subtraction !== null) return maybeSubtraction(subtraction[1] ?? '', subtraction[2] ?? '', complain);
  if (!/\d/.test(number)) return complain('not-a-number', 'lacks a number', 'Write one, such as 28 3/4');
  if (/^-|-$/.test(number)) {
    return complain('not-a-number', 'has a stray hyphen', `Write ${number.replaceAll(/^[- ]+|[- ]+$/g, '')}`);
  }
  return number.includes('/') ? whyNotAFraction(number, complain) : whyNotDecimal(number, complain);
}

function maybeSubtraction(whole: string, part: string, complain: MakeTextFault): Error {
  const less = new Fraction(BigInt(whole)).sub(part);
  const cure = less.gte(0) ? `${whole} ${part} or ${formatMixed(less)}` : `${whole} ${part}`;
  return complain('ambiguous', 'may be one number or a subtraction', `Write ${cure}`);
}

function whyNotAFraction(number: string, complain: MakeTextFault): Error {
  if (/\/[^ -]*\//.test(number)) {
    return complain('ambiguous', 'has two bars in one fraction', 'Write one bar, as in 28 3/4');
  }
  if (/(?<!\d)\/|\/(?!\d)/.test(number.replaceAll('.', '0'))) {
    return complain(
      'not-a-number',
      'lacks a number beside the bar',
      'Write one above and one below, as in 3/4',
    );
  }
  const both = /^(\d*\.\d*)[ -]+(\d+\/0*[1-9]\d*)$/.exec(number);
  if (both !== null) {
    const [, point = '', part = ''] = both;
    const cure = `${point} or ${Number.parseInt(`0${point}`, 10)} ${part}`;
    return complain('ambiguous', 'has both decimals and a fraction', `Write ${cure}`);
  }
  if (number.includes('.')) {
    return complain(
      'not-a-number',
      'has a point in a fraction',
      'Write whole numbers beside the bar, as in 3/4',
    );
  }
  return twoNumbers('Write one, as in 28 3/4', complain);
}

function whyNotDecimal(number: string, complain: MakeTextFault): Error {
  const pair = /^(\d+) +(\d+)$/.exec(number);
  if (pair !== null) {
    const [, first = '', second = ''] = pair;
    const cure = `Write ${first}${second}, or a whole number and a fraction as in ${first} 1/2`;
    return twoNumbers(cure, complain);
  }
  if (/[ -]/.test(number)) return twoNumbers('Write one, as in 28.75 or 28 3/4', complain);
  return complain('not-a-number', 'has more than one decimal point', 'Write one, as in 28.75');
}

const twoNumbers = (cure: string, complain: MakeTextFault): Error =>
  complain('ambiguous', 'has two numbers run together', cure);
