import { describe, expect, test } from 'vitest';
import { isOnBase, stickRow } from '../../../src/part/derived/story-stick.ts';
import { chordLine, offsetAt, REFERENCE_LINE, stationsOf } from '../../../src/part/offsets.ts';
import { partOf, samplePart } from '../jobs.ts';

const IN = 25.4;
const leg = samplePart('hall-bench-leg.yaml');
const [front, back] = [leg.edges[0]!, leg.edges[1]!];
const strip = (edge = back, every?: number) =>
  stickRow(leg, edge, REFERENCE_LINE, stationsOf(edge, REFERENCE_LINE, 'in', every));

describe('a story stick', () => {
  test('has every station of the table of offsets, with the same offset', () => {
    const { ticks } = strip(back, 2 * IN);
    for (const station of stationsOf(back, REFERENCE_LINE, 'in', 2 * IN)) {
      const tick = ticks.find((each) => Math.abs(each.station - station) < 1e-6);
      expect(tick?.offset).toBeCloseTo(offsetAt(back, station)!, 9);
    }
  });

  test('names ends, nail and apex, and the nail at a station only once', () => {
    const { ticks } = strip(back, 2 * IN);
    expect(ticks.filter(({ what }) => what !== 'station').map(({ what }) => what)).toEqual([
      'end',
      'nail',
      'apex',
      'end',
    ]);
    expect(ticks.filter(({ station }) => Math.abs(station - 12 * IN) < 1)).toHaveLength(1);
  });

  test('rises from station to station', () => {
    const { ticks } = strip(back, IN / 4);
    ticks.slice(1).forEach(({ station }, i) => {
      expect(station).toBeGreaterThan(ticks[i]!.station);
    });
  });

  test('starts at the left end even if the edge starts later', () => {
    const part = partOf(
      'part: Shelf\nunits: mm\nedges:\n  top:\n    - from: [40, 10]\n    - line: [300, 20]\n',
    );
    const edge = part.edges[0]!;
    const told = stickRow(part, edge, REFERENCE_LINE, stationsOf(edge, REFERENCE_LINE, 'mm'));
    expect(told.from).toBe(0);
    expect(told.to).toBe(300);
    const along = chordLine(edge);
    expect(stickRow(part, edge, along, stationsOf(edge, along, 'mm')).to).toBeCloseTo(Math.hypot(260, 10), 9);
  });

  test('of an edge on the line itself has nothing to read', () => {
    expect(isOnBase(strip(front), leg.rule)).toBe(true);
    expect(isOnBase(strip(back), leg.rule)).toBe(false);
  });
});

test('a stick carries the start and the end of a joint on its edge', () => {
  const part = partOf(`part: Rail
units: mm
stock: {thickness: 22}
edges:
  lower: [{from: [0, 0]}, {line: [600, 0]}]
  upper: [{from: [0, 80]}, {line: [600, 80]}]
joints: [{mortise: {at: 210, out: 11, length: 50, width: 8, depth: 20, face: upper}}]
`);
  const marks = part.edges.map((edge) => stickRow(part, edge, REFERENCE_LINE, []).ticks);
  const joints = marks.map((ticks) => ticks.filter(({ what }) => what === 'joint 1'));
  expect(joints.map((ticks) => ticks.map(({ station, offset }) => [station, offset]))).toEqual([
    [],
    [
      [185, 80],
      [235, 80],
    ],
  ]);
});
