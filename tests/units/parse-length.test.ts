import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Fault } from '../../src/units/fault.ts';
import { MAX_LENGTH_MM, parseLength } from '../../src/units/parse-length.ts';
import { took } from '../took.ts';
import { anyText } from './any-text.ts';

/** By hand, with 25.4 mm to the inch (international yard and pound agreement, 1959). */
const INCH_FORMS: readonly (readonly [string, number])[] = [
  ['28 3/4', 730.25],
  ['28-3/4', 730.25],
  ['28-3/4"', 730.25],
  ['28 3 / 4', 730.25],
  ['28.75 in', 730.25],
  ['28.75"', 730.25],
  ['28.75 inch', 730.25],
  ['28.75 Inches', 730.25],
  ['28.75 inch(es)', 730.25],
  ['28.75 in.', 730.25],
  ["28.75''", 730.25],
  ['28.75″', 730.25],
  ['28.75”', 730.25],
  ['28–3/4', 730.25],
  ['3/4', 19.05],
  ['¾', 19.05],
  ['3⁄4', 19.05],
  ['.75', 19.05],
  ['0.75', 19.05],
  ['+0.75', 19.05],
  ['0 3/4', 19.05],
  ['5/4', 31.75],
  ['28.', 711.2],
  ['12½', 317.5],
  ['12 ½', 317.5],
  ['12-½', 317.5],
  ['12\u00a0½', 317.5],
  ['\u202f12 1/2\u00a0in ', 317.5],
  ['-3/4', -19.05],
  ['\u22123/4', -19.05],
  ['- ¾', -19.05],
  ['-1 3/4', -44.45],
  ['2\' 4 1/2"', 723.9],
  ['2\'-4 1/2"', 723.9],
  ['2\' - 4 1/2"', 723.9],
  ["2' 4 1/2", 723.9],
  ['2′ 4½″', 723.9],
  ['2’ 4 1/2”', 723.9],
  ["2' 4 1/2''", 723.9],
  ['-2\' 4 1/2"', -723.9],
  ['2ft 4in', 711.2],
  ['2 feet 4 inches', 711.2],
  ['2 ft. 4 in.', 711.2],
  ["2 1/2'", 762],
  ['2.5 ft', 762],
  ['1 foot', 304.8],
  ['730 mm', 730],
  ['730mm', 730],
  ['12 1/2 mm', 12.5],
  ['73cm', 730],
  ['73 cm', 730],
  ['0.73 m', 730],
  ['1 metre', 1000],
  ['0', 0],
  ['-0', 0],
];

/** Every message ends with what to do. */
const REMEDY = /(?:Write|Use|Remove) /;

/** The code, what was typed, and the remedy in the message. */
const MISTAKES: readonly (readonly [string, string, string])[] = [
  ['length.empty', '', '28 3/4 or'],
  ['length.empty', ' \u00a0 ', '28 3/4 or'],
  ['length.too-long', '1'.repeat(65), '730 mm'],
  ['length.not-a-number', 'NaN', '730 mm'],
  ['length.not-a-number', 'Infinity', '730 mm'],
  ['length.not-a-number', '∞', '730 mm'],
  ['length.not-a-number', '- ', '730 mm'],
  ['length.not-a-number', '.', '730 mm'],
  ['length.not-a-number', 'in', '730 mm'],
  ['length.not-a-number', '--3', 'Write 3'],
  ['length.not-a-number', '28-', 'Write 28'],
  ['length.not-a-number', '1/', '3/4'],
  ['length.not-a-number', '/2', '3/4'],
  ['length.not-a-number', '1.5/2', '3/4'],
  ['length.not-a-number', '1.2.3', '28.75'],
  ['length.not-a-number', '12²', '730 mm'],
  ['length.not-a-number', '3 + 4', '730 mm'],
  ['length.not-a-number', '2ft in', '28 3/4'],
  ['length.comma', '12,5', 'Write 12.5'],
  ['length.comma', '-12,5 mm', 'Write -12.5 mm'],
  ['length.comma', '1,200', '1200 or 1.200'],
  ['length.comma', '1,200,000', '1200000'],
  ['length.comma', ',5', '12.5'],
  ['length.exponent', '1e3', 'Write 1000'],
  ['length.exponent', '-2.5e2 mm', 'Write -250 mm'],
  ['length.exponent', '1e999', '1000'],
  ['length.zero-denominator', '3/0', '3/4'],
  ['length.zero-denominator', '1 3/0', '3/4'],
  ['length.improper', '1 5/4', '2 1/4 or 1 1/4'],
  ['length.ambiguous', '1 1', '11, or a whole number and a fraction such as 1 1/2'],
  ['length.ambiguous', '1 000', '1000'],
  ['length.ambiguous', '28-29', '28.75 or 28 3/4'],
  ['length.ambiguous', '1 1/2 3/4', '28 3/4'],
  ['length.ambiguous', '½4', '28 3/4'],
  ['length.ambiguous', '1.5 1/2', '1.5 or 1 1/2'],
  ['length.ambiguous', '1/2/3', '28 3/4'],
  ['length.ambiguous', '28 - 3/4', '28 3/4 or 27 1/4'],
  ['length.ambiguous', '28 -3/4', '28 3/4 or 27 1/4'],
  ['length.ambiguous', '11\' 5/16"', '11 5/16" for inches or 11\' 0 5/16" for feet'],
  ['length.ambiguous', "2'-1/2", '2 1/2" for inches or 2\' 0 1/2" for feet'],
  ['length.ambiguous', '2 ft 3/4 in', '2\' 0 3/4"'],
  ['length.odd-fraction', '5 7/63', '7/64'],
  ['length.odd-fraction', '5 3/17', '3/16'],
  ['length.odd-fraction', '1/31 in', '1/32'],
  ['length.odd-fraction', "2' 3 1/7", '1/8'],
  ['length.odd-fraction', '1/9', '1/8'],
  ['length.odd-fraction', '1/16000', '1/64'],
  ['length.ambiguous', '2\' -4"', '2\'-4"'],
  ['length.unknown-unit', '12abc', '12" or 12 mm'],
  ['length.unknown-unit', '12 inchs', '12" or 12 mm'],
  ['length.unknown-unit', '0x10', '0" or 0 mm'],
  ['length.mixed-units', '3 in 4 mm', '80.2 mm'],
  ['length.mixed-units', '1 m 20 cm', '1200 mm'],
  ['length.mixed-units', "2' 3'", '1524 mm'],
  ['length.feet-and-inches', '4" 2\'', 'Write 2\' 4"'],
  ['length.feet-and-inches', '2\' 14"', '3\' 2" or 38"'],
  ['length.feet-and-inches', '2.5\' 4"', '2\' 10" or 34"'],
  ['length.too-large', '1000001 mm', '1000000 mm'],
  ['length.too-large', '-2000 m', '1000000 mm'],
];

const faultOf = (read: () => unknown): Fault => {
  try {
    read();
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error('No fault was found.');
};

describe('a length in inches as people type it', () => {
  test.each(INCH_FORMS)('%s is %d mm', (text, mm) => {
    expect(parseLength(text, 'in')).toBe(mm);
  });

  test('a bare number is in the unit of the job', () => {
    expect(parseLength('12 1/2', 'mm')).toBe(12.5);
    expect(parseLength('12 1/2', 'in')).toBe(317.5);
  });

  test('inches after feet stay inches in a job in millimeters', () => {
    expect(parseLength("2' 4 1/2", 'mm')).toBe(723.9);
  });

  test('1 km is the longest length read', () => {
    expect(parseLength('1000 m', 'mm')).toBe(MAX_LENGTH_MM);
    expect(parseLength('-1000 m', 'mm')).toBe(-MAX_LENGTH_MM);
  });
});

describe('a typing mistake is reported with a remedy', () => {
  test.each(MISTAKES)('%s: %j', (code, text, cure) => {
    const fault = faultOf(() => parseLength(text, 'in'));
    expect(fault.code).toBe(code);
    expect(fault.message.slice(fault.message.search(REMEDY))).toContain(cure);
  });

  test('the limit of a length is shown in the unit of the reader', () => {
    const fault = faultOf(() => parseLength('40000', 'in'));
    expect(fault.messageIn(() => '39370 in')).toContain('39370 in');
  });

  test.each([
    ['-1', 'not-negative', 'length.negative'],
    ['-1', 'positive', 'length.negative'],
    ['0', 'positive', 'length.zero'],
    ['-0.0', 'positive', 'length.zero'],
  ] as const)('%s where the length must be %s', (text, sign, code) => {
    const fault = faultOf(() => parseLength(text, 'mm', sign));
    expect(fault.code).toBe(code);
    expect(fault.message).toMatch(REMEDY);
  });

  test('0 is allowed where negative lengths are not', () => {
    expect(parseLength('-0', 'mm', 'not-negative')).toBe(0);
  });
});

const wholes = fc.nat({ max: 2000 });
const parts = fc
  .constantFrom(2, 4, 8, 16, 32, 64, 10, 100, 1000)
  .chain((below) => fc.tuple(fc.nat({ max: below - 1 }), fc.constant(below)));

/** n/1000 as decimals. */
const thousandths = (count: number): string =>
  `${Math.floor(count / 1000)}.${`${count % 1000}`.padStart(3, '0')}`;

test('property: one length in inches, feet, millimeters, centimeters and meters is one double', () => {
  fc.assert(
    fc.property(wholes, parts, (whole, [above, below]) => {
      const inches = parseLength(`${whole} ${above}/${below}`, 'in');
      // One inch is 25400 thousandths of a millimetre: the length in mm as a fraction, without rounding.
      const mm = `${(whole * below + above) * 25400}/${below * 1000}`;
      expect(parseLength(mm, 'mm')).toBe(inches);
      expect(parseLength(`${mm}0 cm`, 'mm')).toBe(inches);
      expect(parseLength(`${mm}000 m`, 'mm')).toBe(inches);
      expect(parseLength(`${Math.floor(whole / 12)}' ${whole % 12} ${above}/${below}"`, 'mm')).toBe(inches);
    }),
  );
});

test('inches with three decimals equal millimeters with four', () => {
  fc.assert(
    fc.property(fc.nat({ max: 1e6 }), (count) => {
      // count/1000 in = count · 0.0254 mm
      const tenThousandths = `${count * 254}`.padStart(5, '0');
      const mm = `${tenThousandths.slice(0, -4)}.${tenThousandths.slice(-4)}`;
      expect(parseLength(mm, 'mm')).toBe(parseLength(`${thousandths(count)} in`, 'mm'));
    }),
  );
});

test('property: any text gives a finite length or a fault', () => {
  const likely = fc.string({
    unit: fc.constantFrom(...'0123456789 /.-+,\'"½¾⁄−′″eimcnft°#\u00a0'),
    maxLength: 14,
  });
  const parsed = (text: string): void => {
    try {
      const mm = parseLength(text, 'in');
      expect(Math.abs(mm)).toBeLessThanOrEqual(MAX_LENGTH_MM);
      expect(Object.is(mm, -0)).toBe(false);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      expect(error.code).toMatch(/^length\./);
      expect(error.message).toMatch(REMEDY);
    }
  };
  fc.assert(fc.property(fc.oneof(likely, anyText(80)), parsed), {
    numRuns: 1500,
  });
});

test('the longest text is read without backtracking', () => {
  const longest = [
    '9'.repeat(64),
    `1/${'3'.repeat(62)}`,
    `${'1 '.repeat(32)}`,
    `0.${'3'.repeat(62)}`,
    '-'.repeat(64),
  ];
  const read = () => {
    for (const text of longest) {
      try {
        parseLength(text, 'in');
      } catch (error) {
        expect(error).toBeInstanceOf(Fault);
      }
    }
  };
  // Milliseconds. Each takes well under one; a pattern that backtracks without end would take far more.
  expect(took(read)).toBeLessThan(1000);
});

test.each([
  '1/3',
  '5/12',
  '7/24',
  '1/10',
  '3/20',
  '7/50',
  '1/100',
  '1/1000',
  '1/128',
  '1/96',
  '1/1',
  '7/7 mm',
  '1/7 mm',
])('a fraction that is on some rule is read: %s', (text) =>
  expect(parseLength(text, 'in')).toBeGreaterThan(0),
);

test.each(["2' 0 1/2", "0' 1/2", "2' 1 1/2", "2'", "2' 4"])('feet and inches are read: %s', (text) =>
  expect(parseLength(text, 'in')).toBeGreaterThan(0),
);
