import { expect, test } from 'vitest';
import { percent } from './fairness-cases.ts';
import { takenVerdicts } from './take-off-cases.ts';

// With nine readings, curves of four or more unknowns explain many a wrong reading.
test.each([
  [9, 70],
  [13, 95],
  [25, 95],
])(
  'a reading 5 mm off among %i is named in %i %% or more, at the ends too, and no good one',
  (count, least) => {
    const all = takenVerdicts({
      rises: count > 13 ? [0.1] : [0.03, 0.1, 0.2],
      readings: [count],
      wrongBy: [5],
    });
    expect(percent(all, ({ named }) => named)).toBeGreaterThanOrEqual(least);
    expect(percent(all, ({ blamed }) => blamed > 0)).toBeLessThanOrEqual(count < 13 ? 10 : 3);
  },
  120_000,
);
