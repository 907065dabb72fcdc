import { expect, test } from 'vitest';
import { THIRTY_SECONDS } from './bench.ts';
import { timesBack } from './taken.ts';

test('a batten read by hand, one reading bad, comes back within 2 standard errors in all 10 seeds', () => {
  const seeds = Array.from({ length: 10 }, (_, i) => 1 + i);
  expect(timesBack('batten', 4, THIRTY_SECONDS, seeds)).toBe(10);
});
