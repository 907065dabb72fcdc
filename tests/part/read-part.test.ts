import { describe, expect, test } from 'vitest';
import { JobFaults } from '../../src/job/job-faults.ts';
import { readPart } from '../../src/part/read-part.ts';

function told(text: string): string[] {
  try {
    readPart(text);
    return [];
  } catch (error) {
    if (!(error instanceof JobFaults)) throw error;
    return error.list.map(({ code, place }) => `${place.line} ${code}`);
  }
}

/** A sound part; each of its lines may be replaced, by the number of its line. */
const LINES = [
  'part: Rail',
  'units: mm',
  'quantity: 2',
  'edges:',
  '  a:',
  '    - from: [0, 0]',
  '    - batten: [600, 0]',
  '      apex: [280, 20]',
  '  b:',
  '    - from: [0, 100]',
  '    - batten: [600, 100]',
  '      apex: [300, 160]',
  'ends: {left: square}',
  'stock: {length: 700, width: 200, thickness: 30}',
  'joints:',
  '  - hole: {at: 100, out: 50, diameter: 8}',
  '  - hole: {at: 300, out: 50, diameter: 8}',
  'allowance: {saw: 1}',
];
const changed = (changes: Readonly<Record<number, string>>): string =>
  `${LINES.map((line, i) => changes[i + 1] ?? line).join('\n')}\n`;

const UNREACHED = '      apex: [5, 90]';

test('the job used below has no fault', () => expect(told(changed({}))).toEqual([]));

describe('mistakes of different kinds are reported at once, in order of lines', () => {
  test.each<[what: string, changes: Readonly<Record<number, string>>, faults: readonly string[]]>([
    ['two geometries', { 8: UNREACHED, 12: UNREACHED.replace('90', '190') }, ['7 ', '11 ']],
    ['a count and a geometry', { 3: 'quantity: 0', 8: UNREACHED }, ['3 job.count', '7 ']],
    [
      'a length of one edge and the geometry of the other',
      { 6: '    - from: [0, 0x]', 12: UNREACHED },
      ['6 ', '11 '],
    ],
    [
      'a strange key and small stock',
      { 1: 'part: Rail\ncolour: red', 14: 'stock: {length: 500}' },
      ['2 ', '15 '],
    ],
    [
      'a joint that cannot be read and one outside',
      { 16: '  - hole: {at: 9z}', 17: '  - hole: {at: 900, out: 50, diameter: 8}' },
      ['16 ', '16 ', '16 ', '17 '],
    ],
    ['a wrong end and a geometry', { 13: 'ends: {left: sqare}', 8: UNREACHED }, ['7 ', '13 ']],
    [
      'stock and a joint outside',
      { 14: 'stock: {length: 500}', 17: '  - hole: {at: 900, out: 50, diameter: 8}' },
      ['14 ', '17 '],
    ],
  ])('%s', (_, changes, faults) => {
    const found = told(changed(changes));
    expect(found).toHaveLength(faults.length);
    for (const [i, fault] of faults.entries()) expect(found[i]).toMatch(new RegExp(`^${fault}`));
  });
});

describe('a mistake that only follows from another is not reported', () => {
  test.each<[what: string, changes: Readonly<Record<number, string>>, faults: number]>([
    ['the unit is unknown', { 2: 'units: cm', 14: 'stock: {length: 5}' }, 1],
    ['the edges may be under a misspelt name', { 4: 'edgs:' }, 1],
    [
      'a misspelt name at the top may be the ends',
      { 13: 'end: {left: square}', 14: 'stock: {length: 500}' },
      1,
    ],
    [
      'an edge cannot be read: nothing is outside it',
      { 7: '    - batten: [600, 0q]', 17: '  - hole: {at: 900, out: 50, diameter: 8}' },
      1,
    ],
    ['a step has a misspelt name', { 8: '      apx: [280, 20]' }, 1],
    ['stock with one wrong length is not judged by the other', { 14: 'stock: {length: 5q, width: 20}' }, 1],
    ['the saw allowance cannot be read', { 18: 'allowance: {saw: q}' }, 1],
  ])('%s', (_, changes, faults) => {
    expect(told(changed(changes))).toHaveLength(faults);
  });
});
