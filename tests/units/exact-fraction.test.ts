import fc from 'fast-check';
import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { exactFraction, toDouble } from '../../src/units/exact-fraction.ts';

const finite = fc.double({ noNaN: true, noDefaultInfinity: true });

test('toDouble of a long decimal is the double that JavaScript parses', () => {
  const digits = fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 40 });
  fc.assert(
    fc.property(digits, digits, (whole, places) => {
      const value = new Fraction(BigInt(whole + places), 10n ** BigInt(places.length));
      // A decimal literal is rounded once, to the nearest double (ECMA-262, NumericValue).
      expect(toDouble(value)).toBe(Number(`${whole}.${places}`));
    }),
  );
});

test('toDouble rounds half to even, and anything above half up', () => {
  // Above 2^53 doubles are the even numbers.
  const halfway = 2n ** 53n + 1n;
  expect(toDouble(new Fraction(halfway))).toBe(2 ** 53);
  expect(toDouble(new Fraction(halfway * 10n ** 40n + 1n, 10n ** 40n))).toBe(2 ** 53 + 2);
});

test('exactFraction and toDouble return the same double', () => {
  const plain = finite.filter((value) => value === 0 || Math.abs(value) > 1e-280);
  fc.assert(
    fc.property(plain, (value) => {
      expect(toDouble(exactFraction(value))).toBe(value + 0);
    }),
  );
});

test('toDouble rounds 1/3 and 1/10 as division does', () => {
  expect(toDouble(new Fraction(1n, 3n))).toBe(1 / 3);
  expect(toDouble(new Fraction(-1n, 10n))).toBe(-0.1);
  expect(exactFraction(0.75).toFraction()).toBe('3/4');
});
