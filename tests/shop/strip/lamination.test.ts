import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chartPly, formFactor, laminate, lostShare } from '../../../src/shop/strip/lamination.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { showFine } from '../../../src/units/number-format.ts';
import { defaultRule } from '../../../src/units/rule.ts';

const IN = 25.4;
const rule = defaultRule('in');
const species = findSpecies('white oak');

describe('springback of equal plies', () => {
  // Lost camber y = x / n²; a boat builders' forum gives these two examples.
  test('of 3 in of camber 4 plies lose 3/16 in, and 8 plies 3/64 in', () => {
    expect(3 * lostShare(4)).toBe(3 / 16);
    expect(3 * lostShare(8)).toBe(3 / 64);
  });

  test('the form is sharper by just what is lost: R(1 − 1/n²)', () => {
    for (let plies = 2; plies <= 40; plies++)
      expect(1000 / formFactor(plies)).toBeCloseTo(1000 * (1 - 1 / plies ** 2), 9);
  });

  test('one ply, none and half of one are refused', () => {
    expect(() => lostShare(1)).toThrow(/Use 2 or more/);
    for (const plies of [0, -2, 2.5, Number.NaN, 1e9]) expect(() => lostShare(plies)).toThrow(/whole number/);
  });
});

describe('the makers’ chart', () => {
  // 2–4 in: 3/32; 4–8 in: 1/8; 8–12 in: 3/16; over 12 in: 1/4 (how-to page for makers).
  test.each([
    [3, 3 / 32],
    [6, 1 / 8],
    [10, 3 / 16],
    [30, 1 / 4],
  ])('gives for a radius of %d in the strip it prints', (radius, ply) => {
    expect(chartPly(radius * IN)).toBeCloseTo(ply * IN, 9);
  });

  test('says nothing of a radius under 2 in', () => expect(chartPly(1.9 * IN)).toBeUndefined());
});

describe('a lamination', () => {
  const curvature = 1 / 600;

  test('takes the fewest plies that are safe on their own form', () => {
    const found = laminate({ species, rule, curvature, thickness: 40 });
    expect(found.verdict).toBe('safe');
    expect(found.plies * found.plyThickness).toBeCloseTo(40, 9);
    const fewer = laminate({ species, rule, curvature, thickness: 40, plies: found.plies - 1 });
    expect(fewer.verdict).not.toBe('safe');
  });

  test('of so many plies has each as thick as is safe, on the rule', () => {
    const { plyThickness, thickness, strain, safeStrain } = laminate({ species, rule, curvature, plies: 6 });
    expect((plyThickness / IN) * 32).toBeCloseTo(Math.round((plyThickness / IN) * 32), 9);
    expect(thickness).toBeCloseTo(6 * plyThickness, 9);
    expect(strain).toBeLessThanOrEqual(safeStrain);
  });

  test('needs a thickness or a number of plies', () => {
    expect(() => laminate({ species, rule, curvature })).toThrow(/--thickness, --plies/);
    expect(() => laminate({ species, rule, curvature: 10, thickness: 100 })).toThrow(/more than 1000 plies/);
  });

  test('property: a thicker part takes no fewer plies, a gentler curve no more', () => {
    const size = fc.double({ min: 5, max: 200, noNaN: true });
    const radius = fc.double({ min: 200, max: 5000, noNaN: true });
    fc.assert(
      fc.property(size, size, radius, radius, (a, b, r, q) => {
        const plies = (thickness: number, around: number): number =>
          laminate({ species, rule, curvature: 1 / around, thickness }).plies;
        expect(plies(Math.max(a, b), r)).toBeGreaterThanOrEqual(plies(Math.min(a, b), r));
        expect(plies(a, Math.max(r, q))).toBeLessThanOrEqual(plies(a, Math.min(r, q)));
      }),
    );
  });

  test('has its plies told as a caliper reads them', () => {
    expect(showFine((3 / 8) * IN, rule.unit)).toBe('0.375 in');
    expect(showFine(0.0923 * IN, rule.unit)).toBe('0.092 in');
    expect(showFine(12 / 13, 'mm')).toBe('0.92 mm');
  });
});
