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

  const HOLLOWS = [80, 200, 600, 2000].flatMap((radius) =>
    [0.05, 0.2, 0.5].flatMap((share) => [2, 6, 15].map((plies) => [radius, share * radius, plies] as const)),
  );

  test.each(HOLLOWS)(
    'in a hollow of %d mm the last ply of %d mm in %d bends to what is left of the radius',
    (radius, thickness, plies) => {
      const found = laminate({ species, rule, curvature: 0, hollow: 1 / radius, thickness, plies });
      const inside = radius * (1 - 1 / plies ** 2) - thickness;
      expect(found.tightestRadius).toBeCloseTo(inside, 9);
      expect(found.strain).toBeCloseTo(thickness / plies / (2 * inside), 12);
      expect(found.verdict === 'safe').toBe(found.plyThickness <= found.safePly * (1 + 1e-12));
      const round = laminate({ species, rule, curvature: 1 / radius, thickness, plies });
      expect(round.tightestRadius).toBeCloseTo(radius * (1 - 1 / plies ** 2), 9);
      expect(round.safePly).toBeGreaterThan(found.safePly);
    },
  );

  test('in a hollow a number of plies makes each as thick as is safe for the last', () => {
    for (const plies of [2, 4, 8, 16, 30])
      for (const radius of [300, 700, 3000]) {
        const found = laminate({ species, rule, curvature: 0, hollow: 1 / radius, plies });
        expect(found.verdict).toBe('safe');
        const thicker = plies * (found.plyThickness + IN / 32);
        const more = laminate({ species, rule, curvature: 0, hollow: 1 / radius, plies, thickness: thicker });
        expect(more.verdict).not.toBe('safe');
      }
  });

  test('an S is judged by the worse of its two bends', () => {
    const both = laminate({ species, rule, curvature: 1 / 500, hollow: 1 / 500, thickness: 30 });
    const hollow = laminate({ species, rule, curvature: 0, hollow: 1 / 500, thickness: 30 });
    expect(both).toEqual(hollow);
  });

  test('a hollow that the plies fill is refused', () => {
    const fill = (ask: object) => () => laminate({ species, rule, curvature: 0, hollow: 1 / 100, ...ask });
    for (const ask of [{ thickness: 100 }, { thickness: 99, plies: 3 }, { thickness: 250 }])
      expect(fill(ask)).toThrow(expect.objectContaining({ code: 'lamination.no-room' }));
    expect(fill({ thickness: 99 })).toThrow(expect.objectContaining({ code: 'lamination.too-tight' }));
  });

  test('showFine gives a ply as a caliper reads it', () => {
    expect(showFine((3 / 8) * IN, rule.unit)).toBe('0.375"');
    expect(showFine(0.0923 * IN, rule.unit)).toBe('0.092"');
    expect(showFine(12 / 13, 'mm')).toBe('0.92 mm');
  });
});
