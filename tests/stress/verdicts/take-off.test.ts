import { expect, test } from 'vitest';
import { percent } from './fairness-cases.ts';
import { HELD_SHAPES, type TakenShape, takenVerdicts } from './take-off-cases.ts';

test('readings without a mistake are all kept, and the line is within 3 standard errors of the part', () => {
  const all = takenVerdicts({ rises: [0.03, 0.25], readings: [9, 25] });
  expect(percent(all, ({ blamed }) => blamed > 0)).toBeLessThanOrEqual(3);
  expect(percent(all, ({ worst }) => worst <= 3)).toBeGreaterThanOrEqual(99);
}, 120_000);

test('the line of held battens and of straight parts is within 3 standard errors of the part', () => {
  const shapes = Object.keys(HELD_SHAPES) as TakenShape[];
  const all = takenVerdicts({ shapes, rises: [0.15], readings: [13] });
  expect(percent(all, ({ worst }) => worst <= 3)).toBe(100);
  expect(percent(all, ({ taken }) => taken.kinds[0].kind === 'spline')).toBe(0);
}, 120_000);

test('a reading 12 mm off is named', () => {
  const all = takenVerdicts({ rises: [0.1], readings: [13], wrongBy: [12] });
  expect(percent(all, ({ named }) => named)).toBeGreaterThanOrEqual(95);
}, 120_000);
