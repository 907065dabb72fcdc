import fc from 'fast-check';
import { expect, test } from 'vitest';
import { roundInDoubles, roundInFractions } from '../../src/units/round-to-graduation.ts';
import { defaultRule, parseGraduation } from '../../src/units/rule.ts';

const rules = [
  ...['1/32', '1/64', '1/128', '1/12', '0.1', '0.37', '1'].map((text) => parseGraduation(text, 'in')),
  ...['0.05', '0.5', '1', '2.5', '1/3', '24.999'].map((text) => parseGraduation(text, 'mm')),
];

/** What a maker measures, what is next to nothing, and what is longer than any part. */
const sizes = fc.oneof(
  fc.double({ min: 0, max: 9e5, noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 0, max: 1e-6, noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 0, noNaN: true, noDefaultInfinity: true }),
  // In decimals, as it is typed: at and beside halves and quarters of a graduation.
  fc.integer({ min: 0, max: 9e8 }).map((thousandths) => thousandths / 1000),
  fc.integer({ min: 0, max: 1e6 }).map((count) => (count * 25.4) / 128),
);

test('rounding in doubles equals rounding in fractions', () => {
  fc.assert(
    fc.property(sizes, fc.constantFrom(...rules), (size, { unit, graduation }) => {
      const quick = roundInDoubles(size, graduation, unit);
      if (quick) expect(quick).toEqual(roundInFractions(size, graduation, unit));
    }),
    { numRuns: 20_000 },
  );
});

test('roundInDoubles returns undefined close to a tie', () => {
  const { unit, graduation } = defaultRule('in');
  const step = 25.4 / 32;
  for (const quarters of [1, 2, 3, 5, 4002]) {
    expect(roundInDoubles((quarters * step) / 4, graduation, unit)).toBeUndefined();
    expect(roundInDoubles((quarters + 0.01) * (step / 4), graduation, unit)).toBeDefined();
  }
  expect(roundInDoubles(1e12, graduation, unit)).toBeUndefined();
});
