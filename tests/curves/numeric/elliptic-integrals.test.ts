import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ellipticIntegrals } from '../../../src/curves/numeric/elliptic-integrals.ts';

/** A few units in the last place of numbers near 1. */
const ROUNDING = 1e-14;

test('K and E have their known values', () => {
  // Abramowitz & Stegun, tables 17.1 and 17.2, m = 0.5 and 0.99; K(0) = E(0) = π/2
  expect(ellipticIntegrals(1)).toEqual({ K: Math.PI / 2, E: Math.PI / 2 });
  const half = ellipticIntegrals(Math.SQRT1_2);
  expect(Math.abs(half.K - 1.8540746773013719)).toBeLessThan(ROUNDING);
  expect(Math.abs(half.E - 1.3506438810476755)).toBeLessThan(ROUNDING);
  const steep = ellipticIntegrals(0.1);
  expect(Math.abs(steep.K - 3.6956373629898747)).toBeLessThan(ROUNDING);
  expect(Math.abs(steep.E - 1.015993545025224)).toBeLessThan(ROUNDING);
});

test("Legendre's relation ties both integrals of every modulus", () => {
  // E·K′ + E′·K − K·K′ = π/2 (DLMF 19.7.1)
  fc.assert(
    fc.property(fc.double({ min: 1e-3, max: 1 - 1e-3, noNaN: true }), (k) => {
      const [one, other] = [ellipticIntegrals(k), ellipticIntegrals(Math.sqrt((1 - k) * (1 + k)))];
      const relation = one.E * other.K + other.E * one.K - one.K * other.K;
      expect(Math.abs(relation - Math.PI / 2)).toBeLessThan(10 * ROUNDING);
    }),
  );
});
