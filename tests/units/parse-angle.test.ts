import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Fault } from '../../src/units/fault.ts';
import { parseAngle } from '../../src/units/parse-angle.ts';
import { anyText } from './any-text.ts';

const DEGREE = Math.PI / 180;
/** Two roundings of a double near 1: an angle is divided out in another order here. */
const ROUNDING = 4 * Number.EPSILON;

describe('an angle as people type it', () => {
  test.each([
    ['4', 4],
    ['4 deg', 4],
    ['4°', 4],
    ['4º', 4],
    ['4.5 degrees', 4.5],
    ['7 1/2°', 7.5],
    ['7½ deg.', 7.5],
    ['-6', -6],
    ['−6°', -6],
    ['0', 0],
    ['-0', 0],
    ['89.9', 89.9],
  ])('%s is %d degrees', (text, degrees) => {
    expect(Math.abs(parseAngle(text) - degrees * DEGREE)).toBeLessThanOrEqual(ROUNDING);
    expect(Object.is(parseAngle(text), -0)).toBe(false);
  });

  test.each([
    ['1 in 6', 1 / 6],
    ['1:6', 1 / 6],
    ['1 : 6', 1 / 6],
    ['-1 in 6', -1 / 6],
    ['1 1/2 in 12', 1 / 8],
    ['1 in 1', 1],
  ])('the slope %s is the arctangent of its fraction', (text, slope) => {
    expect(Math.abs(Math.tan(parseAngle(text)) - slope)).toBeLessThanOrEqual(ROUNDING);
  });

  test('1 in 6, the slope of a dovetail in softwood, is 9.4623 degrees', () => {
    // atan(1/6) = 0.16514867741462683, from its series 1/6 − 1/648 + 1/38880 − 1/1959552 + …, by hand
    expect(parseAngle('1 in 6')).toBeCloseTo(0.165148677414627, 14);
  });
});

describe('a mistake in an angle is reported with a remedy', () => {
  test.each([
    ['angle.empty', ''],
    ['angle.too-long', '4'.repeat(65)],
    ['angle.not-a-number', 'steep'],
    ['angle.not-a-number', 'in 6'],
    ['angle.not-a-number', '1 in -6'],
    ['angle.comma', '4,5'],
    ['angle.exponent', '1e1'],
    ['angle.zero-denominator', '5/0'],
    ['angle.zero-denominator', '1 in 0'],
    ['angle.improper', '1 5/4'],
    ['angle.ambiguous', '4 5'],
    ['angle.ambiguous', "4° 30'"],
    ['angle.ambiguous', '4° 30'],
    ['angle.ambiguous', '1:6:2'],
    ['angle.half-slope', '1 in'],
    ['angle.unknown-unit', '0.1 rad'],
    ['angle.unknown-unit', '4 mm'],
    ['angle.too-large', '90'],
    ['angle.too-large', '-90 deg'],
    ['angle.too-large', '1000'],
    ['angle.too-large', '89.99999999999999999999'],
    ['angle.too-large', `${'9'.repeat(40)} in 1`],
  ])('%s: %j', (code, text) => {
    expect(() => parseAngle(text)).toThrow(expect.objectContaining({ code }));
    expect(() => parseAngle(text)).toThrow(/(Write|Use) /);
  });
});

test('property: any text gives an angle up to 90 degrees or a fault', () => {
  const likely = fc.string({ unit: fc.constantFrom(...'0123456789 /.-+,:°½indeg'), maxLength: 12 });
  fc.assert(
    fc.property(fc.oneof(likely, anyText(80)), (text) => {
      try {
        expect(Math.abs(parseAngle(text))).toBeLessThan(Math.PI / 2);
      } catch (error) {
        if (!(error instanceof Fault)) throw error;
        expect(error.code).toMatch(/^angle\./);
      }
    }),
    { numRuns: 1000 },
  );
});
