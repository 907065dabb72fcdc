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
  test('a camber of 3 in loses 3/16 in with 4 plies and 3/64 in with 8', () => {
    expect(3 * lostShare(4)).toBe(3 / 16);
    expect(3 * lostShare(8)).toBe(3 / 64);
  });

  test('the form is sharper by the share that is lost: R(1 − 1/n²)', () => {
    for (let plies = 2; plies <= 40; plies++)
      expect(1000 / formFactor(plies)).toBeCloseTo(1000 * (1 - 1 / plies ** 2), 9);
  });

  test('one ply, none and a fraction are refused', () => {
    for (const plies of [1, 0, -2, 2.5, Number.NaN, 1e9])
      expect(() => lostShare(plies)).toThrow(expect.objectContaining({ code: 'lamination.plies' }));
  });
});

describe('the makers’ chart', () => {
  // 2–4 in: 3/32; 4–8 in: 1/8; 8–12 in: 3/16; over 12 in: 1/4 (how-to page for makers).
  test.each([
    [3, 3 / 32],
    [6, 1 / 8],
    [10, 3 / 16],
    [30, 1 / 4],
  ])('the chart gives for a radius of %d in its ply', (radius, ply) => {
    expect(chartPly(radius * IN)).toBeCloseTo(ply * IN, 9);
  });

  test('the chart has no ply for a radius under 2 in', () => expect(chartPly(1.9 * IN)).toBeUndefined());
});

describe('laminate', () => {
  const curvature = 1 / 600;

  test('a thickness takes the fewest plies that are safe on their own form', () => {
    const found = laminate({ species, rule, curvature, thickness: 40 });
    expect(found.verdict).toBe('safe');
    expect(found.plies * found.plyThickness).toBeCloseTo(40, 9);
    const fewer = laminate({ species, rule, curvature, thickness: 40, plies: found.plies - 1 });
    expect(fewer.verdict).not.toBe('safe');
  });

  test('a number of plies makes each as thick as is safe, on the rule', () => {
    const { plyThickness, thickness, strain, safeStrain } = laminate({ species, rule, curvature, plies: 6 });
    expect((plyThickness / IN) * 32).toBeCloseTo(Math.round((plyThickness / IN) * 32), 9);
    expect(thickness).toBeCloseTo(6 * plyThickness, 9);
    expect(strain).toBeLessThanOrEqual(safeStrain);
  });

  test('a lamination without thickness or plies is refused, and so is one too tight', () => {
    expect(() => laminate({ species, rule, curvature })).toThrow(
      expect.objectContaining({ code: 'lamination.size' }),
    );
    expect(() => laminate({ species, rule, curvature: 10, thickness: 100 })).toThrow(
      expect.objectContaining({ code: 'lamination.too-tight' }),
    );
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

  test('showFine gives a ply as a caliper reads it', () => {
    expect(showFine((3 / 8) * IN, rule.unit)).toBe('0.375 in');
    expect(showFine(0.0923 * IN, rule.unit)).toBe('0.092 in');
    expect(showFine(12 / 13, 'mm')).toBe('0.92 mm');
  });
});
