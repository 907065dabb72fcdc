import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { spreadLabels } from '../../../src/export/labels/spread-labels.ts';

const labels = fc
  .array(
    fc.record({
      at: fc.double({ min: 0, max: 200, noNaN: true }),
      width: fc.double({ min: 1, max: 20, noNaN: true }),
    }),
    { minLength: 1, maxLength: 12 },
  )
  .map((all) => all.sort((a, b) => a.at - b.at));

const ROUNDING = 1e-9;

describe('labels along a line', () => {
  test('stay where they are when they have room', () => {
    expect(
      spreadLabels(
        [
          { at: 20, width: 10 },
          { at: 40, width: 10 },
        ],
        0,
        100,
      ),
    ).toEqual([20, 40]);
  });

  test('two that want the same place share the shift', () => {
    expect(
      spreadLabels(
        [
          { at: 50, width: 10 },
          { at: 50, width: 10 },
        ],
        0,
        100,
      ),
    ).toEqual([45, 55]);
  });

  test('are refused where they are wider than the line', () => {
    expect(
      spreadLabels(
        [
          { at: 5, width: 6 },
          { at: 5, width: 6 },
        ],
        0,
        11,
      ),
    ).toBeUndefined();
  });

  test('property: in order, none on another, all between the ends', () => {
    fc.assert(
      fc.property(labels, (all) => {
        const middles = spreadLabels(all, 0, 200);
        const total = all.reduce((sum, { width }) => sum + width, 0);
        if (!middles) return expect(total).toBeGreaterThan(200);
        middles.forEach((middle, i) => {
          const left = i === 0 ? 0 : middles[i - 1]! + all[i - 1]!.width / 2;
          expect(middle - all[i]!.width / 2).toBeGreaterThanOrEqual(left - ROUNDING);
        });
        expect(middles.at(-1)! + all.at(-1)!.width / 2).toBeLessThanOrEqual(200 + ROUNDING);
      }),
    );
  });

  test('property: no shift of one label alone would lie nearer to where they want to be', () => {
    fc.assert(
      fc.property(labels, (all) => {
        const middles = spreadLabels(all, -1000, 1000);
        if (!middles) return;
        const free = (i: number, by: number): boolean => {
          const at = middles[i]! + by;
          const before = i === 0 ? -1000 : middles[i - 1]! + all[i - 1]!.width / 2;
          const after = i === all.length - 1 ? 1000 : middles[i + 1]! - all[i + 1]!.width / 2;
          return at - all[i]!.width / 2 >= before && at + all[i]!.width / 2 <= after;
        };
        all.forEach(({ at }, i) => {
          const towards = Math.sign(at - middles[i]!) * 1e-3;
          if (Math.abs(at - middles[i]!) > 2e-3) expect(free(i, towards)).toBe(false);
        });
      }),
    );
  });
});
