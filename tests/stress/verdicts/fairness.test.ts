import { describe, expect, test } from 'vitest';
import { IN } from '../../check/bench.ts';
import { isFair, type LineSet, lineCases, oddStation, percent, rankOf } from './fairness-cases.ts';

const SHALLOW_AND_DEEP = [0.01, 0.06, 0.2];
const FEW_AND_MANY = [1, 3, 4, 6, 8, 11];

describe('smooth lines', () => {
  test.each([
    ['exact', 0, 1],
    ['rounded to 1/64 in', IN / 64, 4],
  ])('with nails %s are seldom called unfair', (_, graduation, most) => {
    const lines = lineCases({ rises: SHALLOW_AND_DEEP, nails: FEW_AND_MANY, graduation, seeds: 1 });
    expect(percent(lines, ({ smooth }) => rankOf(smooth) >= 2)).toBeLessThanOrEqual(most);
  });

  test('that are shallow are plainly fair over many nails', () => {
    const lines = lineCases({ rises: [0.01, 0.02], nails: [8, 11], graduation: 0, seeds: 2 });
    expect(percent(lines, ({ smooth }) => isFair(smooth))).toBeGreaterThanOrEqual(99);
  });

  test('with nails rounded to 1/8 in are not plainly fair', () => {
    const lines = lineCases({ rises: [0.03, 0.06], nails: [6, 8], graduation: IN / 8, seeds: 2 });
    expect(percent(lines, ({ smooth }) => isFair(smooth))).toBeLessThanOrEqual(2);
  });
});

describe('lines with one nail out of place', () => {
  test('by 1/32 in are never plainly fair on an arch, and the nail is named', () => {
    const arches: LineSet = {
      shapes: ['arc', 'parabola'],
      rises: [0.02, 0.05, 0.1],
      nails: [4, 6, 8, 11],
      graduation: 0,
      seeds: 3,
    };
    const bumped = [...lineCases(arches)].map((each) => ({ ...each, line: each.bumped(IN / 32) }));
    expect(percent(bumped, ({ line }) => isFair(line))).toBe(0);
    const named = percent(bumped, ({ line, movedStation }) => oddStation(line) === movedStation);
    expect(named).toBeGreaterThan(85);
  });

  test.each([1, 2, 6])('by %s/32 in are never plainly fair, whatever their shape', (parts) => {
    const lines = lineCases({ rises: SHALLOW_AND_DEEP, nails: [4, 6, 8, 11], graduation: 0, seeds: 1 });
    expect(percent(lines, ({ bumped }) => isFair(bumped((parts * IN) / 32)))).toBeLessThanOrEqual(0.5);
  });

  test('get no better verdict as the nail moves farther', () => {
    const lines = lineCases({ rises: [0.03, 0.1], nails: [4, 6, 8, 11], graduation: 0, seeds: 1 });
    const betters = percent(lines, ({ bumped }) => {
      const ranks = [2, 4, 8, 12].map((parts) => rankOf(bumped((parts * IN) / 64)));
      return ranks.some((rank, i) => i > 0 && rank < ranks[i - 1]!);
    });
    expect(betters).toBeLessThanOrEqual(2);
  });
});
