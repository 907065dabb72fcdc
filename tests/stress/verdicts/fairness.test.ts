import { describe, expect, test } from 'vitest';
import { IN } from '../../check/bench.ts';
import { isFair, lineCases, oddStation, percent } from './fairness-cases.ts';

const SHALLOW_AND_DEEP = [0.01, 0.03, 0.06, 0.1, 0.2];
const FEW_AND_MANY = [1, 3, 4, 6, 8, 11];

describe('smooth lines', () => {
  test.each([
    ['exact', 0, 99],
    ['rounded to 1/64 in', IN / 64, 96],
  ])('with nails %s are fair', (_, graduation, least) => {
    const lines = lineCases({ rises: SHALLOW_AND_DEEP, nails: FEW_AND_MANY, graduation, seeds: 4 });
    expect(percent(lines, ({ smooth }) => isFair(smooth))).toBeGreaterThanOrEqual(least);
  });

  test('with nails rounded to 1/8 in are not fair', () => {
    const lines = lineCases({ rises: [0.03, 0.06], nails: [6, 8], graduation: IN / 8, seeds: 6 });
    expect(percent(lines, ({ smooth }) => isFair(smooth))).toBeLessThanOrEqual(15);
  });
});

describe('lines with one nail out of place', () => {
  const arches = {
    shapes: ['arc', 'parabola'],
    rises: [0.02, 0.05, 0.1],
    nails: [4, 6, 8, 11],
    graduation: 0,
    seeds: 6,
  } as const;

  test('by 1/32 in are never fair on an arch, and the nail is named', () => {
    const bumped = [...lineCases(arches)].map((each) => ({ ...each, line: each.bumped(IN / 32) }));
    expect(percent(bumped, ({ line }) => isFair(line))).toBe(0);
    expect(percent(bumped, ({ line, movedStation }) => oddStation(line) === movedStation)).toBeGreaterThan(
      90,
    );
  });

  test('get no better verdict as the nail moves farther', () => {
    const lines = lineCases({ rises: [0.02, 0.05, 0.1], nails: [6, 8, 11], graduation: IN / 64, seeds: 3 });
    const betters = percent(lines, ({ bumped }) => {
      const fair = [1, 2, 3, 4, 6, 8].map((parts) => isFair(bumped((parts * IN) / 32)));
      return fair.some((now, i) => now && fair.slice(0, i).includes(false));
    });
    expect(betters).toBeLessThanOrEqual(1);
  });
});
