import { expect, test } from 'vitest';
import { percent } from './fairness-cases.ts';
import { takenVerdicts } from './take-off-cases.ts';

test('a reading 5 mm off is named, at the ends too, and no good one', () => {
  const all = takenVerdicts({ wrongBy: [5] });
  expect(percent(all, ({ named }) => named)).toBeGreaterThanOrEqual(95);
  expect(percent(all, ({ blamed }) => blamed > 0)).toBeLessThanOrEqual(3);
  expect(percent(all, ({ worst }) => worst <= 3)).toBeGreaterThanOrEqual(95);
}, 120_000);
