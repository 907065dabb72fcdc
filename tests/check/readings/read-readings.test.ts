import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { splitCsvLine } from '../../../src/check/readings/csv-line.ts';
import {
  MAX_FAULTS,
  MAX_LINE,
  MAX_READINGS,
  parseReading,
  readReadings,
} from '../../../src/check/readings/read-readings.ts';
import type { PlacedFault } from '../../../src/job/job-faults.ts';
import { MAX_JOB_BYTES, MAX_JOB_LINES } from '../../../src/job/parse/read-yaml.ts';
import type { Faults } from '../../../src/units/fault.ts';
import { anyText } from '../../units/any-text.ts';
import { IN } from '../bench.ts';

const plain = (text: string, unit: 'in' | 'mm' = 'in'): [number, number][] =>
  readReadings(text, unit).map(({ station, offset }) => [station, offset]);

function faultsIn(text: string): string[] {
  try {
    readReadings(text, 'in');
  } catch (error) {
    return (error as Faults).list.map((fault) => {
      const { line, column } = (fault as PlacedFault).place;
      return `${line}:${column} ${fault.code}`;
    });
  }
  return [];
}

function messageOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    return (error as Error).message;
  }
  throw new Error('no fault');
}

describe('readReadings by form of the file', () => {
  const asked = [
    [6 * IN, 0.5 * IN],
    [12 * IN, 3.75 * IN],
  ];
  test.each([
    ['commas', '6,1/2\n12,3 3/4\n'],
    ['semicolons', '6;1/2\n12;3 3/4'],
    ['tabs', '6\t1/2\n12\t3 3/4'],
    ['a spreadsheet’s decimal commas', '"Station";"Offset"\r\n"6,0";"0,5"\r\n"12";"3,75"\r\n'],
    ['tabs and decimal commas', '6,0\t0,5\n12\t3,75 in'],
    ['names of columns', 'station,offset\n6,1/2\n12,3 3/4'],
    ['names in another order, with a column of remarks', 'note,Offset,Station\nknot,1/2,6\n,3 3/4,12'],
    ['an offset asked for and one measured', 'station,offset,measured\n6,9,1/2\n12,9,3 3/4'],
    ['units in the names', 'station_mm,measured (in)\n152.4,1/2\n304.8,3 3/4'],
    ['remarks and blank lines', '# the left leg\n\n6,1/2 # by the knot\n\n12,3 3/4\n'],
    ['a byte order mark and Windows line ends', '\uFEFF6,1/2\r\n12,3 3/4\r\n'],
    ['old line ends', '6,1/2\r12,3 3/4'],
    ['quoted cells', '"6","1/2"\n"12" , "3 3/4"'],
    ['inch marks', '6",1/2"\n1\' 0",3-3/4"'],
    ['inch marks in quoted cells', '"6""","1/2"""\n12,"3 3/4"""'],
    ['units of their own', '6 in,12.7 mm\n304.8 mm,3.75 in'],
    ['trailing separators', '6,1/2,,\n12,3 3/4,,'],
  ])('%s', (_, text) => {
    const read = plain(text);
    expect(read).toHaveLength(2);
    read.flat().forEach((value, i) => {
      expect(value).toBeCloseTo(asked.flat()[i]!, 12);
    });
  });

  test('every reading has its line and column', () => {
    expect(readReadings('# leg\n  6, 1/2\n', 'in')[0]!.place).toEqual({ line: 2, column: 3 });
  });

  test('property: cells that a spreadsheet quotes are read back', () => {
    const cell = fc.string({ maxLength: 12 }).map((text) => text.replaceAll(/[\r\n]/g, '').trim());
    fc.assert(
      fc.property(fc.array(cell, { minLength: 1, maxLength: 5 }), (texts) => {
        const line = texts.map((text) => `"${text.replaceAll('"', '""')}"`).join(';');
        expect((splitCsvLine(line, ';') as { text: string }[]).map(({ text }) => text)).toEqual(texts);
      }),
    );
  });
});

describe('mistakes in a readings file', () => {
  test('several mistakes are reported together, each with its line and column', () => {
    const text = 'station,offset\n6,\n12,1 1\n18,1/2,7\n2x,3/4\n"24,1/2\n';
    // With named columns a third cell is nobody's business.
    expect(faultsIn(text)).toEqual([
      '2:3 readings.missing',
      '3:4 length.ambiguous',
      '5:1 length.unknown-unit',
      '6:1 readings.open-quote',
    ]);
  });

  test.each([
    ['three values without names', '6,1/2,7', '1:7 readings.cells'],
    ['a comma between semicolons that may be thousands', '6;1,200', '1:3 length.comma'],
    ['a decimal comma between commas', '6,"12,5"', '1:3 length.comma'],
    ['mixed units in one cell', '6,3 in 4 mm', '1:3 length.mixed-units'],
    ['one value', '6', '1:1 readings.missing'],
    ['no column for the offset', 'station,height\n6,1/2', '1:1 readings.columns'],
    ['nothing', '', '1:1 readings.none'],
    ['only remarks', '# nothing yet\n', '1:1 readings.none'],
    ['another encoding', '6,1/2\uFFFD', '1:1 readings.not-text'],
    ['a binary file', '\u0000\u0001PK\u0003\u0004', '1:1 readings.not-text'],
    ['a line without end', `6,1/2${' '.repeat(MAX_LINE)}`, '1:1 readings.long-line'],
    ['a file without end', '6,1/2\n'.repeat(MAX_JOB_BYTES / 6 + 1), '1:1 readings.too-big'],
    ['more lines than any part has stations', '\n'.repeat(MAX_JOB_LINES), '1:1 readings.too-big'],
    ['a file without end, most of it accents', '# é\n'.repeat(MAX_JOB_BYTES / 5 + 1), '1:1 readings.too-big'],
    ['a log', '6,1/2\n'.repeat(MAX_READINGS + 1), `${MAX_READINGS + 1}:1 readings.too-many`],
  ])('%s', (_, text, fault) => {
    expect(faultsIn(text)[0]).toBe(fault);
  });

  test('a line without a separator gives one mistake', () => {
    expect(faultsIn('6 1/2\n12 3 3/4\n')).toEqual(['1:1 readings.missing', '2:1 readings.missing']);
  });

  test('a title above the column names gives one mistake', () => {
    expect(faultsIn('The left leg\nStation\tOffset\n6\t1/2\n12\t3 3/4\n')).toEqual(['1:1 readings.missing']);
  });

  test('a wrong file gives only the first mistakes', () => {
    expect(faultsIn('a story, of a leg 1\n'.repeat(500)).length).toBeLessThanOrEqual(MAX_FAULTS + 1);
  });

  test('property: any text gives readings or placed faults', () => {
    fc.assert(
      fc.property(anyText(200), (text) => {
        try {
          expect(readReadings(text, 'mm').length).toBeGreaterThan(0);
        } catch (error) {
          expect((error as Error).name).toBe('JobFaults');
        }
      }),
    );
  });
});

test('the faults of a readings file match the reviewed words', async () => {
  const texts = [
    '6',
    '6;',
    '6\t',
    '6,1/2,7',
    '6,\n',
    'station,height\n6,1/2',
    '',
    '6,1/2\uFFFD',
    '"6,1/2',
    '6;1,200',
  ];
  const words = texts.map((text) => `${JSON.stringify(text)}\n${messageOf(() => readReadings(text, 'in'))}`);
  const reading = `6\n${messageOf(() => parseReading('6', 'in'))}`;
  await expect(`${[...words, reading].join('\n\n')}\n`).toMatchFileSnapshot('../../words/readings-file.txt');
});

test('parseReading reads station=offset', () => {
  expect(parseReading('6=1/2', 'in')).toEqual({ station: 152.4, offset: 12.7 });
  for (const typed of ['6', '6=1=2', '=1/2', '6=']) expect(() => parseReading(typed, 'in')).toThrow();
});
