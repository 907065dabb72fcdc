import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ticksBetween } from '../../../src/page/canvas/rule-ticks.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import type { Unit } from '../../../src/units/unit.ts';

const INCH = 25.4;
const labels = (from: number, to: number, px: number, unit: Unit): (string | undefined)[] =>
  ticksBetween(from, to, px, defaultRule(unit)).flatMap(({ label }) => label ?? []);

describe('a rule on the screen', () => {
  test('numbers every inch where there is room, and the zero', () => {
    expect(labels(-INCH, 3 * INCH, 3, 'in')).toEqual(['−1', '0', '1', '2', '3']);
  });

  test('numbers every foot where there is little, quarters where there is much', () => {
    expect(labels(0, 36 * INCH, 0.2, 'in')).toEqual(['0', '12', '24', '36']);
    expect(labels(0, INCH, 10, 'in')).toEqual(['0', '1⁄4', '1⁄2', '3⁄4', '1']);
  });

  test.each(['in', 'mm'] as const)('%s: figures keep their distance, however long the part', (unit) => {
    // From a part of 5 mm on a wide screen to 1 km, the longest length there is, on a phone.
    for (const [mm, px] of [
      [5, 1200],
      [50_000, 1200],
      [50_000, 300],
      [1_000_000, 300],
    ] as const) {
      const figures = ticksBetween(0, mm, px / mm, defaultRule(unit)).filter(({ label }) => label);
      for (const [i, { mm: at }] of figures.entries())
        if (i > 0) expect(((at - figures[i - 1]!.mm) * px) / mm).toBeGreaterThanOrEqual(46);
    }
  });

  test('numbers centimetres in millimetres', () => {
    expect(labels(0, 30, 5, 'mm')).toEqual(['0', '10', '20', '30']);
  });

  test('the longest mark stands at the whole inch, the next at its half', () => {
    const ticks = ticksBetween(0, INCH, 4, defaultRule('in'));
    const at = (inches: number) => ticks.find(({ mm }) => Math.abs(mm - inches * INCH) < 1e-9)!.share;
    expect(at(1)).toBeGreaterThan(at(0.5));
    expect(at(0.5)).toBeGreaterThan(at(0.25));
  });

  test('property: marks never run into each other and are never without end', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Unit>('in', 'mm'),
        fc.double({ min: 0.01, max: 400, noNaN: true }),
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        (unit, px, from) => {
          const ticks = ticksBetween(from, from + 2000 / px, px, defaultRule(unit));
          expect(ticks.length).toBeLessThanOrEqual(2001);
          const gaps = ticks.slice(1).map(({ mm }, i) => (mm - ticks[i]!.mm) * px);
          expect(Math.min(Number.POSITIVE_INFINITY, ...gaps)).toBeGreaterThan(3.9);
          expect(ticks.every(({ share }) => share > 0 && share <= 1)).toBe(true);
        },
      ),
    );
  });
});
