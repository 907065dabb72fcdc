import { describe, expect, test } from 'vitest';
import { signedDistanceFrom } from '../../../src/check/fit/rigid-fit.ts';
import { indistinguishableKinds, takeOff } from '../../../src/check/fit/take-off.ts';
import { settingPoints, writeTakeOffJob } from '../../../src/check/fit/take-off-job.ts';
import { HAND_SIGMA_MM } from '../../../src/check/readings/reading-error.ts';
import { offsetAt } from '../../../src/part/offsets.ts';
import { graduationMm } from '../../../src/units/graduation.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { byHand, IN, SIXTEENTHS, seeded, stationsOf, THIRTY_SECONDS, trueReadings } from '../bench.ts';

import { CURVES, curve, rmsOff } from '../taken.ts';

describe('takeOff by kind of curve', () => {
  test.each(['arc', 'bow', 'batten', 'line'] as const)(
    'readings of an exact %s give that kind and the curve itself',
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
    ['line: [12, 1]\n    - arc: [40, 1]\n      rise: 3', ['line', 'arc'], undefined],
    ['batten: [40, 2]\n      through: [13, 4]\n      ends: [held, free]', ['batten'], ['held', 'free']],
    [
      'line: [10, 1]\n    - batten: [30, 3]\n      through: [22, 4]\n      ends: held\n    - line: [40, 3]',
      ['line', 'batten', 'line'],
      ['held', 'held'],
    ],
  ])('readings of an exact %s give its steps', (steps, kinds, ends) => {
    const edge = curve(steps);
    const taken = takeOff(trueReadings(edge, stationsOf(edge, 2 * IN)), THIRTY_SECONDS);
    const [best] = taken.kinds;
    expect(best.curves.map(({ kind }) => kind)).toEqual(kinds);
    if (ends) expect(best.ends).toEqual(ends);
    expect(rmsOff(taken, edge)).toBeLessThan(0.02);
    const again = partOf(writeTakeOffJob(taken, 'Rail', THIRTY_SECONDS)).edges[0]!;
    expect(rmsOff(taken, again)).toBeLessThan(IN / 64);
  });

  test('kinds that the readings cannot tell apart are listed', () => {
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

describe('writeTakeOffJob', () => {
  test.each([
    'hall-bench-leg.yaml',
    'hall-bench-stretcher.yaml',
    'garden-arch-rail.yaml',
    'wall-shelf-bracket.yaml',
  ])('the job of %s draws the fitted curve with few pins', (name) => {
    const { edges, rule } = samplePart(name);
    const edge = edges.at(-1)!;
    const readings = byHand(trueReadings(edge, stationsOf(edge, 40)), rule, HAND_SIGMA_MM, seeded(11));
    const taken = takeOff(readings, rule);
    const [again] = partOf(writeTakeOffJob(taken, name, rule)).edges;
    const distanceOf = signedDistanceFrom(taken.kinds[0].curves.flatMap(({ exact }) => exact));
    // Written to a mark of the rule, which errs by half a graduation, or to a hundredth of a millimeter.
    const rounding = rule.unit === 'in' ? graduationMm(rule) : 0.05;
    for (const { x } of taken.readings)
      expect(Math.abs(distanceOf({ x, y: offsetAt(again!, x) ?? Number.NaN }).distance)).toBeLessThan(
        rounding,
      );
    expect(settingPoints(taken.kinds[0].curves).length).toBeLessThan(readings.length);
  });

  test.each(['arc', 'bow', 'line'] as const)('the job of a %s has one step of that kind', (kind) => {
    const taken = takeOff(trueReadings(CURVES[kind], stationsOf(CURVES[kind], 2 * IN)), THIRTY_SECONDS);
    expect(writeTakeOffJob(taken, 'Rail', THIRTY_SECONDS)).toMatch(new RegExp(`- ${kind}: \\[40`));
  });

  test('a remark gives the direction in which an outlier is off', () => {
    const rule = defaultRule('mm');
    const readings = trueReadings(CURVES.arc, stationsOf(CURVES.arc, 40)).map((each, i) => ({
      ...each,
      offset: each.offset + (i === 6 ? 3.4 : i === 18 ? -3.9 : 0),
    }));
    const lines = writeTakeOffJob(takeOff(readings, rule), 'Rail', rule).match(/\S+ mm (more|less)/g);
    expect(lines).toEqual(['3.5 mm more', '4 mm less']);
  });

  test('a name with quotation marks is kept', () => {
    const taken = takeOff(trueReadings(CURVES.arc, stationsOf(CURVES.arc, 4 * IN)), THIRTY_SECONDS);
    const name = 'Rail: "left" # 2';
    expect(partOf(writeTakeOffJob(taken, name, THIRTY_SECONDS)).name).toBe(name);
  });
});

test('takeOff refuses fewer than five stations', () => {
  const four = trueReadings(CURVES.arc, [0, 100, 200, 300]);
  expect(() => takeOff([...four, ...four], THIRTY_SECONDS)).toThrow(
    expect.objectContaining({ code: 'take-off.too-few' }),
  );
});

test('takeOff counts stations closer than a rule shows as one', () => {
  const exact = trueReadings(CURVES.arc, stationsOf(CURVES.arc, 4 * IN));
  const twice = exact.flatMap((each) => [each, { ...each, station: each.station + 1e-9 }]);
  const taken = takeOff(twice, THIRTY_SECONDS);
  expect(taken.readings).toHaveLength(exact.length);
  expect(taken.kinds[0].kind).toBe('arc');
});
