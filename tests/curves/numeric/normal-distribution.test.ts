import { expect, test } from 'vitest';
import { normalShareBelow } from '../../../src/curves/numeric/normal-distribution.ts';

test('the shares of a normal distribution are those of the printed table', () => {
  // Abramowitz & Stegun, "Handbook of Mathematical Functions" (1964), table 26.1.
  const table = [
    [0, 0.5],
    [1, 0.8413447461],
    [1.96, 0.9750021049],
    [3, 0.998650102],
  ] as const;
  for (const [x, share] of table) {
    expect(Math.abs(normalShareBelow(x) - share)).toBeLessThan(8e-8);
    expect(Math.abs(normalShareBelow(-x) - (1 - share))).toBeLessThan(8e-8);
  }
});
