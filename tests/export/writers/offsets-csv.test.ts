import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readReadings } from '../../../src/check/readings/read-readings.ts';
import { offsetsCsv } from '../../../src/export/writers/offsets-csv.ts';
import { defaultRule } from '../../../src/units/rule.ts';

const inches = defaultRule('in');

/** Records and fields by the grammar of RFC 4180, section 2; written for this test. */
function readCsv(text: string): string[][] {
  const records: string[][] = [];
  let [record, field, quoted]: [string[], string, boolean] = [[], '', false];
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!;
    if (quoted && c === '"' && text[i + 1] === '"') field += text[i++];
    else if (c === '"') quoted = !quoted;
    else if (quoted || (c !== ',' && c !== '\r' && c !== '\n')) field += c;
    else if (c === ',') [record, field] = [[...record, field], ''];
    else if (c === '\n') {
      records.push([...record, field]);
      [record, field] = [[], ''];
    }
  }
  return records;
}

const tableOf = (name: string, ...rows: [station: number, offset: number][]) => ({
  name,
  rows: rows.map(([station, offset]) => ({
    station: station * 25.4,
    offset: offset * 25.4,
    passes: 1,
    shown: '',
  })),
});

/**
 * What a spreadsheet makes of a cell besides text: a number, a fraction, a date, a formula. From
 * memory of how spreadsheets import, no published source.
 */
const TURNED = [/^\s*-?\d+(\.\d+)?\s*$/, /^\s*-?(\d+ )?\d+\/\d+\s*$/, /^\d+[/-]\d+([/-]\d+)?$/, /^[=+\-@]/];

describe('offsets for a spreadsheet', () => {
  test('are decimal numbers in the job’s unit, and as read on the rule beside them', () => {
    expect(readCsv(offsetsCsv(inches, [tableOf('back', [12, 3.25], [15.604, 3.385])]))).toEqual([
      ['edge', 'station_in', 'offset_in', 'station_on_rule', 'offset_on_rule'],
      ['back', '12', '3.25', '12 in', '3 1/4 in'],
      ['back', '15.604', '3.385', '15 19/32 in full', '3 3/8 in full'],
    ]);
  });

  test('3/4 does not become the fourth of March, nor −3/4 a formula', () => {
    const [, ...rows] = readCsv(offsetsCsv(inches, [tableOf('lower', [0, 0.75], [1, -0.75], [2, 0.5])]));
    const onRule = rows.flatMap(([, , , ...words]) => words);
    expect(onRule).toContain('3/4 in');
    expect(onRule).toContain('3/4 in below');
    for (const cell of onRule) for (const form of TURNED) expect(cell).not.toMatch(form);
  });

  test.each(['=SUM(A1)', '-2', '3/4', '+1', '@back'])('an edge named %s stays a name', (name) => {
    const cell = readCsv(offsetsCsv(inches, [tableOf(name, [0, 0])]))[1]![0]!;
    expect(cell).toContain(name);
    for (const form of TURNED) expect(cell).not.toMatch(form);
  });

  test('names of other letters are read as such: the file then says that it is UTF-8', () => {
    expect(offsetsCsv(inches, [tableOf('back', [0, 0])])).not.toContain('\uFEFF');
    expect(offsetsCsv(inches, [tableOf('dos évasé', [0, 0])]).startsWith('\uFEFF')).toBe(true);
  });

  test('property: any name comes back as it was, and every number within 2e-6 mm', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme' }).map((name) => `a${name}`),
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        (name, mm) => {
          const text = offsetsCsv(inches, [
            { name, rows: [{ station: mm, offset: -mm, passes: 1, shown: '' }] },
          ]).replace(/^\uFEFF/, '');
          const [, row] = readCsv(text);
          expect(row![0]).toBe(name);
          expect(row![1]).not.toMatch(/e/);
          expect(Math.abs(Number(row![1]) * 25.4 - mm)).toBeLessThan(2e-6);
          expect(text.endsWith('\r\n')).toBe(true);
        },
      ),
    );
  });

  test('are read back by check as readings', () => {
    const text = offsetsCsv(inches, [tableOf('dos évasé, haut', [12, 3.25], [15.5, -3])]);
    const readings = readReadings(text, 'mm'); // the heads name the unit
    const inMm = readings.flatMap(({ station, offset }) => [station, offset]);
    [12, 3.25, 15.5, -3].forEach((inch, i) => {
      expect(inMm[i]).toBeCloseTo(inch * 25.4, 6);
    });
  });
});
