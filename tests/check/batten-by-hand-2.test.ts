import { expect, test } from 'vitest';
import { THIRTY_SECONDS } from './bench.ts';
import { timesBack } from './taken.ts';

test('a batten read by hand, one reading bad, comes back within 2 standard errors in at least 95 of 100 seeds: the second fifty', () => {
  const seeds = Array.from({ length: 50 }, (_, i) => 51 + i);
  expect(timesBack('batten', 4, THIRTY_SECONDS, seeds)).toBeGreaterThanOrEqual(48);
});
