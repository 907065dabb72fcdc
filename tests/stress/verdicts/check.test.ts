import { describe, expect, test } from 'vitest';
import { type SawnSet, sawnCases } from './check-cases.ts';
import { percent } from './fairness-cases.ts';

const SET = { readings: [9, 25], hands: [0.1, 0.25], seeds: 2 } as const;
const rate = (set: Partial<SawnSet>, code: string): number =>
  percent(sawnCases({ ...SET, seeds: 1, ...set }), ({ codes }) => codes.includes(code));

describe('parts sawn to the line', () => {
  test('are within, and nothing is said of them', () => {
    const cases = [...sawnCases(SET)];
    expect(percent(cases, ({ check }) => check.verdict === 'outside')).toBe(0);
    expect(percent(cases, ({ codes }) => codes.length > 0)).toBe(0);
  });

  test('have their wrong reading of 5 mm named, at the ends too, and no other', () => {
    const cases = [...sawnCases({ ...SET, wrongBy: 5 })];
    expect(percent(cases, ({ blamed, wrongStation }) => blamed.includes(wrongStation!))).toBeGreaterThan(95);
    expect(percent(cases, ({ blamed, wrongStation }) => blamed.some((s) => s !== wrongStation))).toBeLessThan(
      2,
    );
  });
});

describe('parts that are not on the line', () => {
  test.each<[string, Partial<SawnSet>, string, string]>([
    ['lying off the rule', { shift: 3 }, 'check.set-crooked', 'check.wrong-rise'],
    ['lying crooked', { turn: 4 }, 'check.set-crooked', 'check.wrong-rise'],
    ['with a rise 1.5 mm too large', { rise: 1.5 }, 'check.wrong-rise', 'check.set-crooked'],
    ['with a rise 3 mm too small', { rise: -3 }, 'check.wrong-rise', 'check.set-crooked'],
    ['with another rise and lying crooked', { rise: 4, turn: 4 }, 'check.wrong-rise', 'check.set-crooked'],
  ])('%s get that reason and not another', (_, set, reason, other) => {
    expect(rate(set, reason)).toBeGreaterThan(90);
    expect(rate(set, other)).toBeLessThan(10);
  });
});
