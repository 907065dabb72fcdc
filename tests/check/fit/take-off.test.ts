import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ExtendedPath } from '../../../src/check/fit/signed-distance.ts';
import { indistinguishableKinds, type TakeOff, takeOff } from '../../../src/check/fit/take-off.ts';
import { settingPoints, writeTakeOffJob } from '../../../src/check/fit/take-off-job.ts';
import { separateOutliers } from '../../../src/check/readings/find-outliers.ts';
import { MAX_READINGS, type StationReading } from '../../../src/check/readings/read-readings.ts';
import { HAND_SIGMA_MM, readingSigma } from '../../../src/check/readings/reading-error.ts';
import { offsetAt } from '../../../src/part/offsets.ts';
import type { PartEdge } from '../../../src/part/part.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { SOON_MS, took } from '../../took.ts';
import { byHand, IN, SIXTEENTHS, seeded, stationsOf, THIRTY_SECONDS, trueReadings } from '../bench.ts';

const curve = (step: string): PartEdge =>
  partOf(`part: Rail\nunits: in\nedges:\n  a:\n    - from: [0, 1]\n    - ${step}\n`).edges[0]!;
const CURVES = {
  arc: curve('arc: [40, 2]\n      rise: 3'),
  bow: curve('bow: [40, 2]\n      rise: 9'),
  batten: curve('batten: [40, 2]\n      through: [13, 4]'),
  line: curve('line: [40, 2]'),
} as const;

/** The curve taken off against the true edge, over its stations, mm. */
function rmsOff({ kinds: [best] }: TakeOff, edge: PartEdge): number {
  const line = new ExtendedPath(best.curve.exact);
  const off = stationsOf(edge, IN).map((x) => line.signedDistance({ x, y: offsetAt(edge, x)! }).distance);
  return Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length);
}

/**
 * Standard error of a curve of p unknowns over n readings, rms over its length: the trace of the hat matrix is p,
 * so its mean square at the readings is p·sigma²/n.
 */
const standardError = (unknowns: number, readings: number, sigma: number): number =>
  sigma * Math.sqrt(unknowns / readings);

test('the error of a reading is rounding, g/√12, and the hand', () => {
  expect(readingSigma(THIRTY_SECONDS)).toBeCloseTo(Math.sqrt((IN / 32) ** 2 / 12 + HAND_SIGMA_MM ** 2), 12);
});

describe('bad readings', () => {
  const leg = samplePart('hall-bench-leg.yaml').edges[1]!;
  const stations = stationsOf(leg, 2 * IN);
  const sigma = readingSigma(THIRTY_SECONDS);
  const spoilt = (seed: number, at: number, by: number): StationReading[] =>
    byHand(trueReadings(leg, stations), THIRTY_SECONDS, HAND_SIGMA_MM, seeded(seed)).map((each, i) =>
      i === at ? { ...each, offset: each.offset + by } : each,
    );

  test('one of 3/16 is found, and no good one with it, in at least 95 of 100 seeds', () => {
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

  test('it is told by how much it lies off its neighbours', () => {
    const points = trueReadings(leg, stations).map(({ station, offset }, i) => ({
      x: station,
      y: offset + (i === 7 ? 5 : 0),
    }));
    const { bad, good } = separateOutliers(points, sigma);
    expect(bad).toHaveLength(1);
    expect(bad[0]!.off).toBeCloseTo(5, 0);
    expect(good).toHaveLength(points.length - 1);
  });

  test('two far apart are both found', () => {
    const points = trueReadings(leg, stations).map(({ station, offset }, i) => ({
      x: station,
      y: offset + (i === 3 ? -5 : i === 12 ? 6 : 0),
    }));
    expect(separateOutliers(points, sigma).bad.map(({ at }) => at.x)).toEqual([stations[3], stations[12]]);
  });

  test('in good readings of every sample none is found', () => {
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

describe('readings of every 3 in, one of them off by 1/4 in', () => {
  // Those of the old leg in docs/making-a-part.md.
  const OFFSETS = [1.625, 2.125, 2.59375, 3, 3.25, 3.375, 3.375, 3.25, 3.0625, 2.78125, 2.46875, 2];
  const at = (i: number): number => (i === OFFSETS.length - 1 ? 34 : 3 * i) * IN;
  const takenOff = (wrong: number, by: number) =>
    takeOff(
      OFFSETS.map((inches, i) => ({ station: at(i), offset: (inches + (i === wrong ? by : 0)) * IN })),
      THIRTY_SECONDS,
    );

  test.each([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11])(
    'name number %i and no other, and keep both ends where they are not it',
    (wrong) => {
      const { outliers, readings, kinds } = takenOff(wrong, 0.25);
      expect(outliers.map((each) => each.at.x)).toEqual([at(wrong)]);
      expect(readings).toHaveLength(OFFSETS.length - 1);
      expect(kinds[0].worst).toBeLessThan(IN / 32);
    },
    60_000,
  );
});

describe('the kind of curve', () => {
  test.each(['arc', 'bow', 'batten', 'line'] as const)(
    'of an exact %s is found, and the curve itself',
    (kind) => {
      const edge = CURVES[kind];
      const readings = trueReadings(edge, stationsOf(edge, 2 * IN));
      const taken = takeOff(readings, THIRTY_SECONDS);
      expect(taken.kinds[0].kind).toBe(kind);
      expect(rmsOff(taken, edge)).toBeLessThan(1e-3);
      for (const { rms } of taken.kinds.slice(1)) expect(rms).toBeGreaterThanOrEqual(taken.kinds[0].rms);
    },
  );

  test.each([
    ['batten', 4, THIRTY_SECONDS],
    ['arc', 3, SIXTEENTHS],
  ] as const)(
    'a %s read by hand, one reading bad, comes back within 2 standard errors in at least 95 of 100 seeds',
    (kind, unknowns, rule) => {
      const edge = CURVES[kind];
      const exact = trueReadings(edge, stationsOf(edge, 2 * IN));
      let back = 0;
      for (let seed = 1; seed <= 100; seed++) {
        const readings = byHand(exact, rule, HAND_SIGMA_MM, seeded(seed)).map((each, i) =>
          i === 6 ? { ...each, offset: each.offset + IN / 4 } : each,
        );
        const taken = takeOff(readings, rule);
        const error = standardError(unknowns, taken.readings.length, taken.sigma);
        if (rmsOff(taken, edge) <= 2 * error) back++;
      }
      expect(back).toBeGreaterThanOrEqual(95);
    },
    240_000,
  );

  test('what the readings cannot tell apart is said', () => {
    const shallow = curve('arc: [40, 1]\n      rise: 1/4');
    const readings = byHand(
      trueReadings(shallow, stationsOf(shallow, 4 * IN)),
      SIXTEENTHS,
      HAND_SIGMA_MM,
      seeded(4),
    );
    expect(indistinguishableKinds(takeOff(readings, SIXTEENTHS)).length).toBeGreaterThan(0);
  });
});

describe('the job', () => {
  test.each([
    'hall-bench-leg.yaml',
    'hall-bench-stretcher.yaml',
    'garden-arch-rail.yaml',
    'wall-shelf-bracket.yaml',
  ])('of %s draws the curve taken off, with few pins', (name) => {
    const { edges, rule } = samplePart(name);
    const edge = edges.at(-1)!;
    const readings = byHand(trueReadings(edge, stationsOf(edge, 40)), rule, HAND_SIGMA_MM, seeded(11));
    const taken = takeOff(readings, rule);
    const [again] = partOf(writeTakeOffJob(taken, name, rule)).edges;
    const line = new ExtendedPath(taken.kinds[0].curve.exact);
    // Written to a thousandth of an inch or a hundredth of a millimetre.
    for (const { x } of taken.readings)
      expect(
        Math.abs(line.signedDistance({ x, y: offsetAt(again!, x) ?? Number.NaN }).distance),
      ).toBeLessThan(0.05);
    expect(settingPoints(taken.kinds[0].curve).length).toBeLessThan(readings.length);
  });

  test.each(['arc', 'bow', 'line'] as const)('of a %s is one', (kind) => {
    const taken = takeOff(trueReadings(CURVES[kind], stationsOf(CURVES[kind], 2 * IN)), THIRTY_SECONDS);
    expect(writeTakeOffJob(taken, 'Rail', THIRTY_SECONDS)).toMatch(new RegExp(`- ${kind}: \\[40`));
  });

  test('a bad reading is told by which way it is off, without a "shy" that means a hair', () => {
    const rule = defaultRule('mm');
    const readings = trueReadings(CURVES.arc, stationsOf(CURVES.arc, 40)).map((each, i) => ({
      ...each,
      offset: each.offset + (i === 6 ? 3.4 : i === 18 ? -3.9 : 0),
    }));
    const lines = writeTakeOffJob(takeOff(readings, rule), 'Rail', rule).match(/reads .* say/g);
    expect(lines).toEqual([
      'reads 3.5 mm more than its neighbours say',
      'reads 4 mm less than its neighbours say',
    ]);
  });

  test('a name with marks of its own is kept', () => {
    const taken = takeOff(trueReadings(CURVES.arc, stationsOf(CURVES.arc, 4 * IN)), THIRTY_SECONDS);
    const name = 'Rail: "left" # 2';
    expect(partOf(writeTakeOffJob(taken, name, THIRTY_SECONDS)).name).toBe(name);
  });
});

test('fewer than five stations are too few', () => {
  const four = trueReadings(CURVES.arc, [0, 100, 200, 300]);
  expect(() => takeOff([...four, ...four], THIRTY_SECONDS)).toThrow(/five|5/);
});

test('stations that no rule tells apart count as one', () => {
  const exact = trueReadings(CURVES.arc, stationsOf(CURVES.arc, 4 * IN));
  const twice = exact.flatMap((each) => [each, { ...each, station: each.station + 1e-9 }]);
  const taken = takeOff(twice, THIRTY_SECONDS);
  expect(taken.readings).toHaveLength(exact.length);
  expect(taken.kinds[0].kind).toBe('arc');
});

test('property: any readings give a curve that passes among them, and a job that can be read', () => {
  const reading = fc.record({
    station: fc.integer({ min: 0, max: 2000 }),
    offset: fc.integer({ min: -300, max: 300 }),
  });
  const readings = fc.uniqueArray(reading, {
    minLength: 6,
    maxLength: 30,
    selector: ({ station }) => station,
  });
  fc.assert(
    fc.property(readings, (all) => {
      const rule = defaultRule('mm');
      const taken = takeOff(all, rule);
      const { kinds } = taken;
      for (const { rms, worst } of kinds) expect(worst).toBeGreaterThanOrEqual(rms);
      partOf(writeTakeOffJob(taken, 'Any', rule));
    }),
    { numRuns: 10 },
  );
});

test(`the most readings, of no curve at all, take a moment and no more`, () => {
  const random = seeded(1);
  const noise = Array.from({ length: MAX_READINGS }, (_, i) => ({ station: i, offset: 200 * random() }));
  expect(took(() => takeOff(noise, defaultRule('mm')))).toBeLessThan(5 * SOON_MS);
});
