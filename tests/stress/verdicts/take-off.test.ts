import { expect, test } from 'vitest';
import { percent } from './fairness-cases.ts';
import { type TakeOffSet, takenCases, verdictOf } from './take-off-cases.ts';

const SET: TakeOffSet = {
  rises: [0.03, 0.1, 0.25],
  readings: [9, 13, 25],
  hands: [0.25],
  wrongBy: [0],
  seeds: 1,
};
const verdicts = (set: Partial<TakeOffSet>) =>
  [...takenCases({ ...SET, ...set })].map((each) => verdictOf(each));

test('readings without a mistake are all kept, and the line is within 3 standard errors of the part', () => {
  const all = verdicts({});
  expect(percent(all, ({ blamed }) => blamed > 0)).toBeLessThanOrEqual(3);
  expect(percent(all, ({ worst }) => worst <= 3)).toBeGreaterThanOrEqual(99);
}, 120_000);

test('a reading 5 mm or more off is named, at the ends too, and no good one', () => {
  const all = verdicts({ wrongBy: [5, 12] });
  expect(percent(all, ({ named }) => named)).toBeGreaterThanOrEqual(95);
  expect(percent(all, ({ blamed }) => blamed > 0)).toBeLessThanOrEqual(3);
  expect(percent(all, ({ worst }) => worst <= 3)).toBeGreaterThanOrEqual(95);
}, 120_000);
