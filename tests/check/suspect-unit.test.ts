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

describe('suspectUnitWarnings', () => {
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

  test('readings of a part 75 ft long give a warning', () => {
    expect(suspectUnitWarnings(read(inMm, IN), THIRTY_SECONDS)).toMatchObject([
      { code: 'take-off.other-unit', message: expect.stringMatching(/900".*--units mm/) },
    ]);
    expect(suspectUnitWarnings(read(inMm, 1), defaultRule('mm'))).toEqual([]);
  });

  test('readings of 34 mm in 32nds give a warning', () => {
    expect(suspectUnitWarnings(read(inInches, 1), defaultRule('mm'))).toMatchObject([
      { code: 'take-off.other-unit', message: expect.stringMatching(/34 mm\b.*--units in/) },
    ]);
    expect(suspectUnitWarnings(read(inInches, IN), THIRTY_SECONDS)).toEqual([]);
  });

  test('readings of a short part in tenths or halves of a mm give no warning', () => {
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

  test('readings of an arch of 19 ft give no warning', () => {
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

describe('checkEdge of readings in the other unit', () => {
  const part = samplePart('hall-bench-leg.yaml');
  const edge = part.edges[1]!;
  const how = { base: REFERENCE_LINE, tolerance: IN / 32, beforeSanding: false };
  const good = trueReadings(edge, stationsOf(edge, 4 * IN));

  test('stations past the ends that fit in the other unit give one fault', () => {
    const mmAsInches = good.map(({ station, offset }) => ({ station: station * IN, offset: offset * IN }));
    expect(() => checkEdge(part, edge, mmAsInches, how)).toThrow(
      expect.objectContaining({ code: 'check.other-unit', message: expect.stringContaining('station_mm') }),
    );
  });

  test('one station far out, or stations close together, do not suggest the other unit', () => {
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

  test('stations within the ends that fit better in the other unit give a warning', () => {
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
