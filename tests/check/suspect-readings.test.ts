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

describe('a part outside is doubted', () => {
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
      'with station and offset changed over',
      ['check.changed-over'],
      good.slice(0, 4).map((r) => ({ station: r.offset, offset: r.station })),
    ],
    ['set crooked', ['check.set-crooked'], off((station) => 0.05 * IN + 0.006 * station)],
    ['off all along', ['check.set-crooked'], off(() => -IN / 8)],
    ['farther off than its edge is long', ['check.set-crooked'], off(() => 40 * IN)],
    ['with one reading of another', ['check.odd-reading'], off((_, i) => (i === 4 ? IN / 2 : 0))],
    ['sawn proud over a third of its length', [], off((station) => Math.max(0, station - 22 * IN) * 0.02)],
    ['within', [], good],
  ])('%s', (_, told, readings) => expect(codes(readings)).toEqual(told));
});

test('an edge off all along by as much may be sawn so, and its width tells', () => {
  expect(doubts(off(() => -IN / 8))[0]!.message).toMatch(/^It is 1\/8 in shy all along: .* or is sawn so/);
  expect(doubts(off((station) => 0.006 * station))[0]!.message).toMatch(/crooked .* or is sawn so/);
});

test('an odd reading is told by its station and by how much', () => {
  const [told] = doubts(off((_, i) => (i === 4 ? IN / 2 : 0)));
  expect(told!.message).toMatch(
    /^The reading at station 15 1\/8 in shy is 1\/2 in proud of its neighbours\./,
  );
  const [hollow] = doubts(off((_, i) => (i === 4 ? -IN / 2 : 0)));
  expect(hollow!.message).toMatch(/ is 1\/2 in shy of its neighbours\./);
});

test('an edge alike both ways is not said to be counted from the other end, nor three readings', () => {
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

test('good work read by hand is hardly ever doubted, in at most 2 of 100 seeds', () => {
  let doubted = 0;
  for (let seed = 1; seed <= 100; seed++)
    if (doubts(byHand(good, THIRTY_SECONDS, IN / 64, seeded(seed))).length > 0) doubted++;
  expect(doubted).toBeLessThanOrEqual(2);
});

test('a reading past the cut of an end is told, though it lies on the line', () => {
  // A miter of 20° through the upper edge's corner at station 0 leaves the lower edge 60·tan 20° = 21.8 mm short.
  const brace = partOf(`part: Garden arch brace
units: mm
edges:
  low: [{from: [0, 0]}, {line: [600, 0]}]
  up: [{from: [0, 60]}, {batten: [600, 60], apex: [300, 100]}]
ends: {left: {miter: 20}}
`);
  const [low, up] = [brace.edges[0], brace.edges[1]!];
  const ask = (on: typeof low, readings: readonly StationReading[]) =>
    suspectReadings(brace, on, checkEdge(brace, on, readings, how), readings, how);
  const [past, ...others] = ask(
    low,
    [0, 10, 21.5, 22, 300].map((station) => ({ station, offset: 0 })),
  );
  expect(others).toEqual([]);
  expect(past!.code).toBe('check.past-end');
  expect(past!.message).toContain('at station 0 mm, 10 mm: it begins at 22 mm shy');
  expect(ask(up, [{ station: 0, offset: 60 }])).toEqual([]);
});
