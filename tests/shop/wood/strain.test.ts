import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type StripSample, worstTaperBend } from '../../../src/shop/strip/sprung-line.ts';
import {
  breakingStrain,
  fiberStrain,
  maxSafeThickness,
  safeStrain,
  strainVerdict,
} from '../../../src/shop/wood/bending.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { SPECIES } from '../../../src/shop/wood/species.ts';
import { floorToGraduation, graduationMm } from '../../../src/units/graduation.ts';
import type { Rule } from '../../../src/units/rule.ts';

const oak = findSpecies('white oak');
/** A few roundings of a double. */
const ROUNDING = 1e-14;

const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyWood = fc.constantFrom(...SPECIES);
const anyRule: fc.Arbitrary<Rule> = fc.constantFrom<Rule>(
  { unit: 'in', graduation: { numerator: 1, denominator: 32 } },
  { unit: 'in', graduation: { numerator: 1, denominator: 10 } },
  { unit: 'mm', graduation: { numerator: 1, denominator: 2 } },
  { unit: 'mm', graduation: { numerator: 1, denominator: 1 } },
);

test('6 mm at a radius of 637.5 mm has a strain of 0.47 %', () => {
  // 6 / (2 · 637.5), by hand
  expect(fiberStrain(6, 1 / 637.5)).toBeCloseTo(0.00470588, 8);
  expect(fiberStrain(6, -1 / 637.5)).toBeCloseTo(0.00470588, 8);
});

test('white oak breaks at a radius of 59 thicknesses, and is safe at twice that', () => {
  // MOE/(2·MOR) = 1.78e6/(2 · 15200) = 58.55 (Wood Handbook, Table 5-3b)
  expect(1 / (2 * breakingStrain(oak))).toBeCloseTo(58.6, 0);
  expect(1 / (2 * safeStrain(oak))).toBeCloseTo(117.2, 0);
});

test('strainVerdict is safe up to the safe strain, risky above it, and breaks at MOR/MOE', () => {
  const [safe, breaking] = [safeStrain(oak), breakingStrain(oak)];
  expect(strainVerdict(safe, oak)).toBe('safe');
  expect(strainVerdict(safe * (1 + 1e-9), oak)).toBe('risky');
  expect(strainVerdict(breaking * (1 - ROUNDING), oak)).toBe('risky');
  expect(strainVerdict(breaking, oak)).toBe('breaks');
});

test('property: strain is proportional to thickness and to curvature', () => {
  fc.assert(
    fc.property(positive(0.5, 25), positive(1e-5, 0.05), positive(0.1, 10), (t, curvature, k) => {
      const strain = fiberStrain(t, curvature);
      expect(Math.abs(fiberStrain(k * t, curvature) / (k * strain) - 1)).toBeLessThan(ROUNDING);
      expect(Math.abs(fiberStrain(t, k * curvature) / (k * strain) - 1)).toBeLessThan(ROUNDING);
    }),
  );
});

test('property: the thickest strip on the rule is safe, and one graduation more is not', () => {
  fc.assert(
    fc.property(anyWood, anyRule, positive(1e-5, 0.02), (wood, rule, curvature) => {
      const thickest = floorToGraduation(maxSafeThickness(curvature, wood), rule);
      expect(strainVerdict(fiberStrain(thickest, curvature), wood)).toBe('safe');
      expect(strainVerdict(fiberStrain(maxSafeThickness(curvature, wood), curvature), wood)).toBe('safe');
      // Not by the verdict: the graduation may lie on the limit but for rounding.
      const more = fiberStrain(thickest + graduationMm(rule), curvature);
      expect(more).toBeGreaterThan(safeStrain(wood) * (1 - ROUNDING));
    }),
  );
});

test('floorToGraduation goes down just under a graduation and stays on one', () => {
  const rule: Rule = { unit: 'in', graduation: { numerator: 1, denominator: 32 } };
  expect(floorToGraduation(25.4 / 4, rule)).toBe(25.4 / 4);
  expect(floorToGraduation(25.4 / 4 - 1e-12, rule)).toBe((7 / 32) * 25.4);
  expect(floorToGraduation(0.5, rule)).toBe(0);
});

const sample = (thickness: number, curvature: number, x: number): StripSample => ({
  place: { x, y: 0, angle: 0, curvature, speed: 1 },
  thickness,
});

test('worstTaperBend is where thickness times curvature is greatest', () => {
  const worst = worstTaperBend([
    sample(8, 0, 0),
    sample(6, -0.001, 500),
    sample(5, -0.00115, 700),
    sample(4, 0, 1000),
  ])!;
  // At 500: 6 · 0.001 = 0.006; at 700: 5 · 0.00115 = 0.00575, though the curve is tighter there.
  expect(worst.at.x).toBe(500);
  expect(fiberStrain(8, worst.curvature)).toBeCloseTo(0.006 / 2, 12);
  expect(worst.share / worst.curvature).toBeCloseTo(1000, 9);
});

test('worstTaperBend of a straight strip is undefined', () => {
  expect(worstTaperBend([sample(8, 0, 0)])).toBeUndefined();
  expect(worstTaperBend([])).toBeUndefined();
});
