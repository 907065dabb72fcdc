import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bendingModulus, stripStiffness, thicknessForStiffness } from '../../../src/shop/wood/bending.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { remainingStrength } from '../../../src/shop/wood/grain-runout.ts';

/** A few roundings of a double. */
const ROUNDING = 1e-13;

test('a strip 25 × 6 mm of E 12 300 MPa over 1000 mm takes 13.28 N for a rise of 50 mm', () => {
  // P = 48·E·I·y/L³, simple beam with a centre load (AISC Manual, Table 3-23); I = 25·6³/12 = 450 mm⁴
  const stiffness = stripStiffness(12300, 25, 6);
  expect(stiffness).toBe(12300 * 450);
  const perStiffness = (48 * 50) / 1000 ** 3;
  expect(perStiffness * stiffness).toBeCloseTo(13.284, 3);
});

test('bendingModulus is 10 % over the table, without shear', () => {
  // Wood Handbook, footnote to Table 5-3b
  expect(bendingModulus(findSpecies('white oak'))).toBeCloseTo(13530, 6);
});

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

test('property: stiffness is proportional to the width and to the cube of the thickness', () => {
  fc.assert(
    fc.property(size(5, 60), size(1, 20), size(0.1, 10), (width, thickness, k) => {
      const stiffness = stripStiffness(12000, width, thickness);
      const wider = stripStiffness(12000, k * width, thickness);
      const thicker = stripStiffness(12000, width, k * thickness);
      expect(Math.abs(wider / (k * stiffness) - 1)).toBeLessThan(ROUNDING);
      expect(Math.abs(thicker / (k ** 3 * stiffness) - 1)).toBeLessThan(ROUNDING);
    }),
  );
});

test('property: thicknessForStiffness inverts stripStiffness', () => {
  fc.assert(
    fc.property(size(5, 60), size(1, 20), (width, thickness) => {
      const back = thicknessForStiffness(stripStiffness(12000, width, thickness), 12000, width);
      expect(Math.abs(back / thickness - 1)).toBeLessThan(ROUNDING);
    }),
  );
});

test.each([
  [25, 0.96],
  [20, 0.93],
  [15, 0.89],
  [10, 0.81],
  [5, 0.55],
])('grain running out 1 in %d leaves the strength that the Handbook gives', (run, share) => {
  // Wood Handbook, strength against slope of grain, modulus of rupture (from memory); measured against
  // formula: they part by up to 3 hundredths, and the table lies near the lower bound.
  const { least, most } = remainingStrength(Math.atan(1 / run));
  expect(Math.abs(least - share)).toBeLessThan(0.035);
  expect(most).toBeGreaterThan(share);
});

test('straight grain keeps all its strength, grain square across 4 to 10 %', () => {
  expect(remainingStrength(0)).toEqual({ least: 1, most: 1 });
  const across = remainingStrength(Math.PI / 2);
  expect(across.least).toBeCloseTo(0.04, 12);
  expect(across.most).toBeCloseTo(0.1, 12);
});
