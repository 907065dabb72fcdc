import { describe, expect, test } from 'vitest';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { measuresSection } from '../../../src/export/card/card-measures.ts';
import { landmarkNote, offsetRowsOf } from '../../../src/export/cover/offset-rows.ts';
import { dimensionsOf, lengthWithoutUnit } from '../../../src/export/drawing/dimensions.ts';
import { fullSize } from '../../../src/export/full-size/compose-full-size.ts';
import { offsetsTable } from '../../../src/export/tables/offsets-table.ts';
import { writeDxf } from '../../../src/export/writers/dxf.ts';
import { offsetsCsv } from '../../../src/export/writers/offsets-csv.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { apart, type DrawnLine, farthestFrom, meant, placesOn } from '../drawn-line.ts';
import { pdfLine, svgLine } from '../full-size-files.ts';
import { readDxf } from '../read-dxf.ts';

/** A wall-shelf bracket with a quirk at either end of its curve. */
const BRACKET = `part: Wall shelf bracket
units: mm
edges:
  wall:
    - from: [0, 0]
    - line: [220, 0]
  front:
    - from: [0, 150]
    - line: [25, 150]
    - line: [25, 146.5]
    - batten: [195, 43.5]
      through: [90, 75]
    - line: [195, 40]
    - line: [220, 40]
allowance:
  saw: 5
`;
const bracket = partOf(BRACKET);
const front = bracket.edges[1]!;

const dxfLine = (layer: string): DrawnLine =>
  readDxf(writeDxf(fullSize(bracket), { unit: 'mm', splines: false }))
    .lines.filter((line) => line.layer === layer)
    .flatMap(({ line }) => line);

describe('a part with shoulders, read back', () => {
  test.each([
    ['cut', bracket.exact],
    ['saw', bracket.saw],
  ] as const)('its %s line is the exact one in SVG, DXF and PDF', async (layer, pieces) => {
    const exact = meant(pieces);
    for (const file of [svgLine(fullSize(bracket), layer), dxfLine(layer)])
      expect(apart(file, exact, 3)).toBeLessThanOrEqual(2 * FIT_MM);
    const pdf = await pdfLine(fullSize(bracket), layer);
    expect(farthestFrom(exact, placesOn(pdf, 3))).toBeLessThanOrEqual(2 * FIT_MM);
  });

  test('its saw line passes a quirk of less than the allowance at the allowance', () => {
    const off = placesOn(meant(bracket.saw), 5).filter(({ x, y }) => x > 25 && x < 31 && y > 140);
    expect(off.length).toBeGreaterThan(5);
    const to = (at: { x: number; y: number }): number => farthestFrom(meant(bracket.exact), [at]);
    for (const at of off) expect(to(at)).toBeGreaterThan(5 - FIT_MM);
  });
});

describe('tables of a part with shoulders', () => {
  test('the card asks for no width at a shoulder, where there are two', () => {
    // Its stations are every 100 mm, and one shoulder stands at the first of them.
    const { variants } = measuresSection(
      partOf(BRACKET.replaceAll('[25,', '[100,').replace('[90, 75]', '[150, 75]')),
      90,
    );
    expect(JSON.stringify(variants[0]!.list).match(/width at \d+/g)).toEqual(['width at 200']);
  });

  const table = offsetsTable(front, [20, 25, 30], bracket.rule);

  test('tell both sides', () => {
    expect(table.rows.map(({ station, side, shown, passes }) => [station, side, shown, passes])).toEqual([
      [20, undefined, '150', 1],
      [25, 'left', '150', 1],
      [25, 'right', '146.5', 1],
      [30, undefined, expect.any(String), 1],
    ]);
  });

  test('for a spreadsheet say the side in a column of its own, which plain edges do without', () => {
    const [head, ...rows] = offsetsCsv(bracket.rule, [table]).trim().split('\r\n');
    expect(head).toMatch(/,side_of_shoulder$/);
    expect(rows.map((row) => row.split(',').at(-1))).toEqual(['', 'left', 'right', '']);
    const plain = offsetsTable(bracket.edges[0]!, [20, 25], bracket.rule);
    expect(offsetsCsv(bracket.rule, [plain])).not.toContain('shoulder');
  });

  test('on the cover have a row for either side, and other landmarks there once', () => {
    const rail = samplePart('hall-bench/seat-rail.yaml');
    const rows = offsetRowsOf(rail, dimensionsOf(rail)).map(({ station, side, offsets, marks }) => [
      ...[station, ...offsets].map((mm) => lengthWithoutUnit(mm ?? 0, rail.rule)),
      marks.map(landmarkNote(rail, side)).join(', '),
    ]);
    expect(rows.filter(([station]) => station === '1')).toEqual([
      ['1', '3⁄4', '2 3⁄4', 'left of shoulder of lower, left of shoulder of upper'],
      ['1', '0', '3 1⁄4', 'right of shoulder of lower, right of shoulder of upper'],
    ]);
    expect(rows.flatMap((row) => row.at(-1)!.match(/apex/g) ?? [])).toHaveLength(1);
  });
});
