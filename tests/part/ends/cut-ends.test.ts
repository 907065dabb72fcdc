import { describe, expect, test } from 'vitest';
import { offsetsSection } from '../../../src/export/card/card-offsets.ts';
import { cardPages } from '../../../src/export/card/compose-card.ts';
import { offsetRowsOf } from '../../../src/export/cover/offset-rows.ts';
import { dimensionsOf } from '../../../src/export/drawing/dimensions.ts';
import { addCutEnds, offsetsTable } from '../../../src/export/tables/offsets-table.ts';
import { stickRow } from '../../../src/part/derived/story-stick.ts';
import { cutEnds, isCutOff } from '../../../src/part/ends/cut-ends.ts';
import { chordLine, REFERENCE_LINE, stationsOf } from '../../../src/part/offsets.ts';
import type { Part } from '../../../src/part/part.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { partOf, samplePart } from '../jobs.ts';

/** A garden arch's brace, both ends leaning away from the upper edge: the lower one ends short at either. */
const brace = (ends: string): Part =>
  partOf(`part: Garden arch brace
units: mm
stock: {thickness: 40}
edges:
  low: [{from: [0, 0]}, {line: [600, 0]}]
  up: [{from: [0, 60]}, {batten: [600, 60], apex: [300, 100]}]
ends: ${ends}
`);
const leaning = brace('{left: {miter: 20}, right: {miter: -10}}');
const [low, up] = leaning.edges as [Part['edges'][0], Part['edges'][0]];

/** Of a triangle 60 high whose side leans by an angle, the base, mm. */
const lean = (degrees: number): number => 60 * Math.tan((degrees * Math.PI) / 180);

describe('an edge that an end’s cut leaves short', () => {
  test('ends where the cut through the other edge’s corner leaves it', () => {
    expect(cutEnds(leaning, low)).toEqual([
      { side: 'left', at: { x: expect.closeTo(lean(20), 9), y: 0 } },
      { side: 'right', at: { x: expect.closeTo(600 - lean(10), 9), y: 0 } },
    ]);
    expect(cutEnds(leaning, up)).toEqual([]);
  });

  test('is whole where the ends are square, in a sample as well', () => {
    const square = brace('{left: square, right: square}');
    for (const edge of square.edges) expect(cutEnds(square, edge)).toEqual([]);
    const line = samplePart('garden-arch-rail.yaml');
    for (const edge of line.edges) expect(cutEnds(line, edge)).toEqual([]);
  });

  test('has wood up to its end and none past it', () => {
    const cuts = cutEnds(leaning, low);
    for (const station of [lean(20), 300, 600 - lean(10)]) expect(isCutOff(cuts, station)).toBe(false);
    for (const station of [0, lean(20) - 0.1, 600 - lean(10) + 0.1, 600])
      expect(isCutOff(cuts, station)).toBe(true);
  });

  test('has in its table of offsets a row where it ends, and those past it are named', () => {
    const cuts = cutEnds(leaning, low);
    const stations = addCutEnds(stationsOf(low, REFERENCE_LINE, 'mm', 100), cuts);
    const { rows } = offsetsTable(low, stations, leaning.rule, REFERENCE_LINE, cuts);
    expect(rows.map(({ station, wood }) => [Math.round(station * 10) / 10, wood])).toEqual([
      [0, 'none'],
      [21.8, 'ends'],
      ...[100, 200, 300, 400, 500].map((station) => [station, undefined]),
      [589.4, 'ends'],
      [600, 'none'],
    ]);
  });

  test('along its chord, too', () => {
    const part = brace('{left: {miter: -20}, right: square}');
    const cuts = cutEnds(part, part.edges[1]!);
    const base = chordLine(part.edges[1]!);
    expect(cuts).toHaveLength(1);
    const [end] = addCutEnds([], cuts, base);
    expect(isCutOff(cuts, end! - 0.1, base)).toBe(true);
    expect(isCutOff(cuts, end! + 0.1, base)).toBe(false);
  });

  test('has no offset past its end in printed tables, and a row where it ends', () => {
    const rows = offsetRowsOf(leaning, dimensionsOf(leaning));
    const at = (station: number) => rows.find((row) => Math.abs(row.station - station) < 0.05)!;
    for (const station of [0, 600]) expect(at(station).offsets).toEqual([undefined, expect.closeTo(60, 9)]);
    for (const station of [lean(20), 600 - lean(10)]) {
      expect(at(station).offsets[0]).toBeCloseTo(0, 9);
      expect(at(station).marks).toEqual([expect.objectContaining({ what: 'end', edge: 'low' })]);
    }
  });

  test('is read by a story stick from its end to its end', () => {
    const part = brace('{left: {miter: -20}, right: square}');
    const edge = part.edges[1]!;
    const at = cutEnds(part, edge)[0]!.at;
    const { ticks } = stickRow(part, edge, REFERENCE_LINE, stationsOf(edge, REFERENCE_LINE, 'mm', 10));
    expect(ticks[0]).toMatchObject({ what: 'end', station: expect.closeTo(at.x, 9) });
    expect(at.x).toBeGreaterThan(15);
  });
});

test('a story stick lists the stations that an edge passes more than once', () => {
  // A circle of radius 60 from (0, 0) to (100, 0) by way of its far side: the arc bulges past both ends.
  const part = partOf(
    'part: Shelf\nunits: mm\nedges:\n  edge:\n    - from: [0, 0]\n    - arc: [100, 0]\n      rise: 95\n',
  );
  const [edge] = part.edges;
  const strip = stickRow(part, edge, REFERENCE_LINE, stationsOf(edge, REFERENCE_LINE, 'mm', 50));
  expect(strip.doubled).toEqual([0, 100]);
  const plain = samplePart('hall-bench-leg.yaml');
  const [first] = plain.edges;
  expect(stickRow(plain, first, REFERENCE_LINE, stationsOf(first, REFERENCE_LINE, 'in')).doubled).toEqual([]);
});

test('the card has no box past an end, and tells of a straight edge where it ends', () => {
  const { rows, list } = offsetsSection(brace('{left: {miter: -20}, right: {miter: 10}}'), 90).variants[0]!;
  // The cuts leave the upper edge short by at least 60·tan of their angle, as it rises inwards.
  const stations = (list as { station: number; edges: { name: string }[] }[]).map(({ station }) => station);
  expect(stations.at(0)).toBeGreaterThan(lean(20));
  expect(stations.at(-1)).toBeLessThan(600 - lean(10));
  expect(rows.length).toBeGreaterThan(0);
  const items = cardPages(leaning, { paper: parsePaper('a4') }).flatMap(({ drawing }) => drawing.items);
  const words = items.flatMap((item) => (item.type === 'words' ? [item.text] : [])).join(' ');
  expect(words).toContain('low: straight, on the reference line, from 22 scant to 589.5.');
});
