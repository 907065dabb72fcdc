import { expect, test } from 'vitest';
import { SIXTEENTHS } from './bench.ts';
import { timesBack } from './taken.ts';

test('an arc read by hand, one reading bad, comes back within 2 standard errors in all 10 seeds', () => {
  const seeds = Array.from({ length: 10 }, (_, i) => 1 + i);
  expect(timesBack('arc', 3, SIXTEENTHS, seeds)).toBe(10);
});
