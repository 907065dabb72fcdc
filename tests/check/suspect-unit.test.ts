import { describe, expect, test } from 'vitest';
import { checkEdge } from '../../src/check/check-edge.ts';
import type { StationReading } from '../../src/check/readings/read-readings.ts';
import { suspectReadings } from '../../src/check/suspect-readings.ts';
import { suspectUnitWarnings } from '../../src/check/suspect-unit.ts';
import { REFERENCE_LINE } from '../../src/part/offsets.ts';
import { defaultRule } from '../../src/units/rule.ts';
import { partOf, samplePart } from '../part/jobs.ts';
import { IN, stationsOf, THIRTY_SECONDS, trueReadings } from './bench.ts';

const read = (figures: readonly (readonly [number, number])[], unit: number): StationReading[] =>
  figures.map(([station, offset]) => ({ station: station * unit, offset: offset * unit }));

describe('readings to take a curve off', () => {
  const inMm = [
    [0, 40],
    [225, 70],
    [450, 82],
    [675, 71],
    [900, 45],
  ] as const;
  const inInches = [
    [0, 1.625],
    [9, 2.96875],
    [17, 3.375],
    [25, 3.125],
    [34, 2],
  ] as const;

  test('of a part 75 ft long are doubted, and the cure named', () => {
    const [doubt, ...more] = suspectUnitWarnings(read(inMm, IN), THIRTY_SECONDS);
    expect(more).toEqual([]);
    expect(doubt).toMatchObject({
      code: 'take-off.other-unit',
      message: expect.stringMatching(/900 in long.*--units mm/),
    });
    expect(suspectUnitWarnings(read(inMm, 1), defaultRule('mm'))).toEqual([]);
  });

  test('of 34 mm in 32nds are doubted, and the cure named', () => {
    const [doubt] = suspectUnitWarnings(read(inInches, 1), defaultRule('mm'));
    expect(doubt!.message).toMatch(/34 mm long.*--units in/);
    expect(suspectUnitWarnings(read(inInches, IN), THIRTY_SECONDS)).toEqual([]);
  });

  test('of a short part in tenths or halves of a mm are not', () => {
    for (const small of [
      [
        [0, 4.1],
        [90, 7.3],
      ],
      [
        [0, 4.5],
        [90, 7],
      ],
    ] as const)
      expect(suspectUnitWarnings(read(small, 1), defaultRule('mm'))).toEqual([]);
  });

  test('of an arch of 19 ft are not', () => {
    expect(
      suspectUnitWarnings(
        read(
          [
            [0, 0],
            [19 * 12, 0],
          ],
          IN,
        ),
        THIRTY_SECONDS,
      ),
    ).toEqual([]);
  });
});

describe('a check in the other unit', () => {
  const part = samplePart('hall-bench-leg.yaml');
  const edge = part.edges[1]!;
  const how = { base: REFERENCE_LINE, tolerance: IN / 32, beforeSanding: false };
  const good = trueReadings(edge, stationsOf(edge, 4 * IN));

  test('whose stations lie past the ends says so once, and what to write', () => {
    const mmAsInches = good.map(({ station, offset }) => ({ station: station * IN, offset: offset * IN }));
    expect(() => checkEdge(part, edge, mmAsInches, how)).toThrow(
      expect.objectContaining({
        code: 'check.other-unit',
        message: expect.stringMatching(/in mm all lie along it.*station_mm, offset_mm/),
      }),
    );
  });

  test('is not supposed of one station far out, nor of some that would stand close together', () => {
    const far = (stations: readonly number[]) => () =>
      checkEdge(
        part,
        edge,
        stations.map((station) => ({ station: station * IN, offset: 0 })),
        how,
      );
    for (const stations of [[0, 12, 340], [35], [35, 60]])
      expect(far(stations)).toThrow(expect.objectContaining({ list: expect.anything() }));
  });

  test('whose stations lie within all the same is doubted', () => {
    const metric = partOf(
      'part: Leg\nunits: mm\nedges:\n  back:\n    - from: [0, 40]\n    - batten: [900, 50]\n      through: [400, 80]\n',
    );
    const back = metric.edges[0];
    const asMm = trueReadings(back, [0, 200, 400, 600, 900]).map(({ station, offset }) => ({
      station: station / IN,
      offset: offset / IN,
    }));
    const check = checkEdge(metric, back, asMm, how);
    expect(suspectReadings(metric, back, check, asMm, how).map(({ code }) => code)).toEqual([
      'check.other-unit',
    ]);
  });
});
