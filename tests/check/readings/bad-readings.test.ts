import { describe, expect, test } from 'vitest';
import { takeOff } from '../../../src/check/fit/take-off.ts';
import { separateOutliers } from '../../../src/check/readings/find-outliers.ts';
import type { StationReading } from '../../../src/check/readings/read-readings.ts';
import { HAND_SIGMA_MM, readingSigma } from '../../../src/check/readings/reading-error.ts';
import { samplePart } from '../../part/jobs.ts';
import { byHand, IN, seeded, stationsOf, THIRTY_SECONDS, trueReadings } from '../bench.ts';

test("readingSigma is rounding, g/√12, and the hand's error", () => {
  expect(readingSigma(THIRTY_SECONDS)).toBeCloseTo(Math.sqrt((IN / 32) ** 2 / 12 + HAND_SIGMA_MM ** 2), 12);
});

describe('separateOutliers', () => {
  const leg = samplePart('hall-bench-leg.yaml').edges[1]!;
  const stations = stationsOf(leg, 2 * IN);
  const sigma = readingSigma(THIRTY_SECONDS);
  const spoilt = (seed: number, at: number, by: number): StationReading[] =>
    byHand(trueReadings(leg, stations), THIRTY_SECONDS, HAND_SIGMA_MM, seeded(seed)).map((each, i) =>
      i === at ? { ...each, offset: each.offset + by } : each,
    );

  test('an outlier of 3/16 is found alone for at least 95 of 100 seeds', () => {
    let found = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const at = 1 + (seed % (stations.length - 2));
      const points = spoilt(seed, at, (seed % 2 === 0 ? 3 : -3) * (IN / 16)).map(
        ({ station: x, offset: y }) => ({ x, y }),
      );
      const { bad } = separateOutliers(points, sigma);
      if (bad.length === 1 && bad[0]!.at.x === stations[at]) found++;
    }
    expect(found).toBeGreaterThanOrEqual(95);
  }, 120_000);

  test("an outlier has its distance from the neighbors' curve", () => {
    const points = trueReadings(leg, stations).map(({ station, offset }, i) => ({
      x: station,
      y: offset + (i === 7 ? 5 : 0),
    }));
    const { bad, good } = separateOutliers(points, sigma);
    expect(bad).toHaveLength(1);
    expect(bad[0]!.off).toBeCloseTo(5, 0);
    expect(good).toHaveLength(points.length - 1);
  });

  test('two outliers far apart are both found', () => {
    const points = trueReadings(leg, stations).map(({ station, offset }, i) => ({
      x: station,
      y: offset + (i === 3 ? -5 : i === 12 ? 6 : 0),
    }));
    expect(separateOutliers(points, sigma).bad.map(({ at }) => at.x)).toEqual([stations[3], stations[12]]);
  });

  test('good readings of every sample have no outlier', () => {
    for (const name of ['hall-bench-leg.yaml', 'hall-bench-stretcher.yaml', 'garden-arch-rail.yaml'])
      for (let seed = 1; seed <= 5; seed++) {
        const edge = samplePart(name).edges.at(-1)!;
        const readings = byHand(
          trueReadings(edge, stationsOf(edge, 50)),
          THIRTY_SECONDS,
          HAND_SIGMA_MM,
          seeded(seed),
        );
        expect(
          separateOutliers(
            readings.map(({ station, offset }) => ({ x: station, y: offset })),
            sigma,
          ).bad,
        ).toEqual([]);
      }
  });
});

describe('takeOff of readings every 3 in, one of them off by 1/4 in', () => {
  // Those of the old leg in docs/making-a-part.md.
  const OFFSETS = [1.625, 2.125, 2.59375, 3, 3.25, 3.375, 3.375, 3.25, 3.0625, 2.78125, 2.46875, 2];
  const at = (i: number): number => (i === OFFSETS.length - 1 ? 34 : 3 * i) * IN;
  const takenOff = (wrong: number, by: number) =>
    takeOff(
      OFFSETS.map((inches, i) => ({ station: at(i), offset: (inches + (i === wrong ? by : 0)) * IN })),
      THIRTY_SECONDS,
    );

  test.each([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11])(
    'reading %i alone is the outlier, and the ends stay otherwise',
    (wrong) => {
      const { outliers, readings, kinds } = takenOff(wrong, 0.25);
      expect(outliers.map((each) => each.at.x)).toEqual([at(wrong)]);
      expect(readings).toHaveLength(OFFSETS.length - 1);
      expect(kinds[0].worst).toBeLessThan(IN / 32);
    },
    60_000,
  );
});
