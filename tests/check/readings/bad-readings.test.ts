import { describe, expect, test } from 'vitest';
import { takeOff } from '../../../src/check/fit/take-off.ts';
import { HAND_SIGMA_MM, readingSigma } from '../../../src/check/readings/reading-error.ts';
import { IN, THIRTY_SECONDS } from '../bench.ts';

test("readingSigma is rounding, g/√12, and the hand's error", () => {
  expect(readingSigma(THIRTY_SECONDS)).toBeCloseTo(Math.sqrt((IN / 32) ** 2 / 12 + HAND_SIGMA_MM ** 2), 12);
});

describe('takeOff of readings every 3 in, one of them off by 1/4 in', () => {
  // Those of the old leg in docs/making-a-part.md.
  const OFFSETS = [1.625, 2.125, 2.59375, 3, 3.25, 3.375, 3.375, 3.25, 3.0625, 2.78125, 2.46875, 2];
  const at = (i: number): number => (i === OFFSETS.length - 1 ? 34 : 3 * i) * IN;
  const takenOff = (wrong: number, by: number) =>
    takeOff(
      OFFSETS.map((inches, i) => ({ station: at(i), offset: (inches + (i === wrong ? by : 0)) * IN })),
      THIRTY_SECONDS,
    );

  test.each([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11])(
    'reading %i alone is the outlier, and the ends stay otherwise',
    (wrong) => {
      const { outliers, readings, kinds } = takenOff(wrong, 0.25);
      expect(outliers.map((each) => each.at.x)).toEqual([at(wrong)]);
      expect(readings).toHaveLength(OFFSETS.length - 1);
      expect(kinds[0].worst).toBeLessThan(IN / 32);
    },
    60_000,
  );
});
