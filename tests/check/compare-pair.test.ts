import { describe, expect, test } from 'vitest';
import type { Deviation } from '../../src/check/check-edge.ts';
import { comparePair, mirrorReadings } from '../../src/check/compare-pair.ts';

/** What was found at some stations: only where, and how much wood is too much, counts for a pair. */
const found = (...proud: [station: number, proud: number][]): Deviation[] =>
  proud.map(([station, off]) => ({
    station,
    measured: off,
    design: 0,
    deviation: off,
    square: off,
    proud: off,
    climb: 0,
    verdict: 'high',
  }));

describe('comparePair', () => {
  const first = found([300, 5], [0, 1], [100, 3]);

  test('a station of the first part is compared with its reading there', () => {
    expect(comparePair(first, found([0, 1.5], [100, 2], [300, 5]))!.readings).toEqual([
      { station: 0, difference: 0.5 },
      { station: 100, difference: -1 },
      { station: 300, difference: 0 },
    ]);
  });

  test('a station between two readings is compared with the value interpolated between them', () => {
    // From 3 at 100 to 5 at 300: 3.5 at 150, 4.5 at 250.
    const pair = comparePair(first, found([150, 4], [250, 4]))!;
    expect(pair.readings).toEqual([
      { station: 150, difference: 0.5 },
      { station: 250, difference: -0.5 },
    ]);
    expect(pair).toMatchObject({ worst: 0.5, rms: 0.5 });
  });

  test("a station past the first part's last reading is left out", () => {
    expect(comparePair(first, found([-1, 9], [301, 9], [200, 4]))!.readings).toHaveLength(1);
    expect(comparePair(first, found([301, 9]))).toBeUndefined();
  });
});

test('mirrorReadings changes the sign of every offset', () => {
  expect(mirrorReadings([{ station: 6, offset: 2 }])).toEqual([{ station: 6, offset: -2 }]);
});
