import { describe, expect, test } from 'vitest';
import { checkEdge } from '../../src/check/check-edge.ts';
import type { StationReading } from '../../src/check/readings/read-readings.ts';
import { suspectReadings } from '../../src/check/suspect-readings.ts';
import { REFERENCE_LINE } from '../../src/part/offsets.ts';
import { partOf, samplePart } from '../part/jobs.ts';
import { byHand, IN, seeded, stationsOf, THIRTY_SECONDS, trueReadings } from './bench.ts';

const part = samplePart('hall-bench-leg.yaml');
const edge = part.edges[1]!;
const how = { base: REFERENCE_LINE, tolerance: IN / 32, beforeSanding: false };
const good = trueReadings(edge, stationsOf(edge, 4 * IN));
const doubts = (readings: readonly StationReading[]) =>
  suspectReadings(part, edge, checkEdge(part, edge, readings, how), readings, how);
const codes = (readings: readonly StationReading[]): string[] => doubts(readings).map(({ code }) => code);
const off = (by: (station: number, i: number) => number): StationReading[] =>
  good.map((each, i) => ({ ...each, offset: each.offset + by(each.station, i) }));

/** A miter of 20° through the upper edge's corner at station 0 leaves the lower edge 60·tan 20° = 21.8 mm short. */
const BRACE = partOf(`part: Garden arch brace
units: mm
edges:
  low: [{from: [0, 0]}, {line: [600, 0]}]
  up: [{from: [0, 60]}, {batten: [600, 60], apex: [300, 100]}]
ends: {left: {miter: 20}}
`);
const pastCut = (on: typeof edge, stations: readonly number[]) => {
  const readings = stations.map((station) => ({ station, offset: 0 }));
  return suspectReadings(BRACE, on, checkEdge(BRACE, on, readings, how), readings, how);
};

test('a reading where the line climbs more than 45° gives a warning', () => {
  const arch = partOf('part: Arch\nunits: mm\nedges:\n  a: [{from: [0, 0]}, {arc: [600, 0], rise: 250}]\n');
  const top = arch.edges[0]!;
  const told = (stations: readonly number[]) => {
    const readings = trueReadings(top, stations);
    return suspectReadings(arch, top, checkEdge(arch, top, readings, how), readings, how);
  };
  expect(told([200, 300, 400])).toEqual([]);
  expect(told([20, 300, 400]).map(({ code }) => code)).toEqual(['check.steep']);
});

test('readings of the other edge are recognized', () => {
  const [low, up] = [BRACE.edges[0]!, BRACE.edges[1]!];
  const readings = trueReadings(up, [100, 200, 300, 400, 500]);
  const found = suspectReadings(BRACE, low, checkEdge(BRACE, low, readings, how), readings, how);
  expect(found.map(({ code }) => code)).toEqual(['check.other-edge']);
});

test('readings counted from the corner of a cut left end are recognized', () => {
  const brace = partOf(`part: Garden arch brace
units: mm
edges:
  low: [{from: [0, 0]}, {line: [600, 0]}]
  up: [{from: [0, 60]}, {batten: [600, 60], apex: [300, 160]}]
ends: {left: {miter: -20}}
`);
  const up = brace.edges[1]!;
  const corner = 60 * Math.tan((20 * Math.PI) / 180);
  const readings = trueReadings(up, [50, 150, 250, 350, 450, 550]).map(({ station, offset }) => ({
    station: station - corner,
    offset,
  }));
  const found = suspectReadings(brace, up, checkEdge(brace, up, readings, how), readings, how);
  expect(found.map(({ code }) => code)).toContain('check.from-corner');
});

describe('suspectReadings of a part outside the tolerance', () => {
  test.each<[string, string[], StationReading[]]>([
    [
      'counted from the other end',
      ['check.other-end'],
      good.map((r) => ({ ...r, station: 34 * IN - r.station })),
    ],
    [
      'with its offsets on the other side',
      ['check.other-side'],
      good.map((r) => ({ ...r, offset: -r.offset })),
    ],
    [
      'with station and offset swapped',
      ['check.changed-over'],
      good.slice(0, 4).map((r) => ({ station: r.offset, offset: r.station })),
    ],
    ['set crooked', ['check.set-crooked'], off((station) => 0.05 * IN + 0.006 * station)],
    ['off all along', ['check.set-crooked'], off(() => -IN / 8)],
    ['farther off than its edge is long', ['check.set-crooked'], off(() => 40 * IN)],
    ['with one reading of another', ['check.odd-reading'], off((_, i) => (i === 4 ? IN / 2 : 0))],
    [
      'sawn proud over a third of its length',
      [],
      off((station) => (station > 18 * IN && station < 30 * IN ? 4 : 0)),
    ],
    ['within', [], good],
  ])('%s', (_, told, readings) => expect(codes(readings)).toEqual(told));
});

test('the warnings match the reviewed words', async () => {
  const readings: Readonly<Record<string, StationReading[]>> = {
    'counted from the other end': good.map((r) => ({ ...r, station: 34 * IN - r.station })),
    'with its offsets on the other side': good.map((r) => ({ ...r, offset: -r.offset })),
    'with station and offset swapped': good
      .slice(0, 4)
      .map((r) => ({ station: r.offset, offset: r.station })),
    'shy all along': off(() => -IN / 8),
    'set crooked': off((station) => 0.006 * station),
    'with a proud outlier': off((_, i) => (i === 4 ? IN / 2 : 0)),
    'with a shy outlier': off((_, i) => (i === 4 ? -IN / 2 : 0)),
  };
  const text = [
    ...Object.entries(readings).map(([title, each]) => [title, doubts(each)] as const),
    ['past the cut of an end', pastCut(BRACE.edges[0], [0, 10, 21.5, 22, 300])] as const,
  ].map(([title, warnings]) => [`## ${title}`, ...warnings.map(({ message }) => message)].join('\n'));
  await expect(`${text.join('\n\n')}\n`).toMatchFileSnapshot('../words/suspect-readings.txt');
});

test('a symmetrical edge or three readings give no warning of the other end', () => {
  const arch = samplePart('garden-arch-rail.yaml');
  const [lower] = arch.edges as readonly [typeof edge, typeof edge];
  const ask = { ...how, tolerance: 1 };
  const readings = trueReadings(lower, stationsOf(lower, 200)).map((r) => ({
    ...r,
    offset: r.offset + (r.station > 900 ? 9 : 0),
  }));
  const told = suspectReadings(arch, lower, checkEdge(arch, lower, readings, ask), readings, ask);
  expect(told.map(({ code }) => code)).not.toContain('check.other-end');
  expect(codes(good.slice(0, 3).map((r) => ({ ...r, offset: -r.offset })))).toEqual([]);
});

test('good work read by hand gives a warning for at most 2 of 100 seeds', () => {
  let doubted = 0;
  for (let seed = 1; seed <= 100; seed++)
    if (doubts(byHand(good, THIRTY_SECONDS, IN / 64, seeded(seed))).length > 0) doubted++;
  expect(doubted).toBeLessThanOrEqual(2);
});

test('a reading past the cut of an end gives a warning, though it is on the line', () => {
  const [low, up] = [BRACE.edges[0], BRACE.edges[1]!];
  expect(pastCut(low, [0, 10, 21.5, 22, 300]).map(({ code }) => code)).toEqual(['check.past-end']);
  expect(pastCut(low, [22, 300])).toEqual([]);
  const atCorner = [{ station: 0, offset: 60 }];
  expect(suspectReadings(BRACE, up, checkEdge(BRACE, up, atCorner, how), atCorner, how)).toEqual([]);
});
