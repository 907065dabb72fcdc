import { expect, test } from 'vitest';
import { halfOf } from '../../src/part/derived/half-pattern.ts';
import { type LineRole, partLines } from '../../src/part/part-lines.ts';
import { partOf } from './jobs.ts';

const ROLES: readonly LineRole[] = ['finished', 'saw', 'chord', 'centre', 'back'];

const rolesOf = (text: string): LineRole[] => partLines(partOf(text), ROLES).map(({ role }) => role);

const LINE = 'part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - arc: [400, 0]\n      rise: 40\n';
const CLOSED = `${LINE}  base:\n    - from: [0, -80]\n    - line: [400, -80]\n`;

test('a line pattern has a finished line and a chord, both open', () => {
  const lines = partLines(partOf(LINE), ROLES);
  expect(lines.map(({ role, closed }) => [role, closed])).toEqual([
    ['finished', false],
    ['chord', false],
  ]);
});

test('a closed part has a closed finished line and, with an allowance, a closed saw line', () => {
  expect(rolesOf(CLOSED)).toEqual(['finished']);
  const lines = partLines(partOf(`${CLOSED}allowance: {saw: 2}\n`), ROLES);
  expect(lines.map(({ role, closed }) => [role, closed])).toEqual([
    ['finished', true],
    ['saw', true],
  ]);
});

test('a tilted end comes out on the back, a mitered one does not', () => {
  const job = `${CLOSED}stock: {thickness: 20}\n`;
  expect(rolesOf(`${job}ends: {left: {bevel: 5}, right: {bevel: 5}}\n`)).toEqual([
    'finished',
    'back',
    'back',
  ]);
  expect(rolesOf(`${job}ends: {left: {miter: 5}}\n`)).toEqual(['finished']);
});

test('half a part has a line to flip it on', () => {
  const lines = partLines(halfOf(partOf(CLOSED)), ROLES);
  expect(lines.map(({ role }) => role)).toEqual(['finished', 'centre']);
  expect(lines[1]!.path).toEqual([
    { type: 'line', from: { x: 200, y: -80 }, to: { x: 200, y: expect.closeTo(40, 9) } },
  ]);
});

test('lines come in the order of the roles asked for', () => {
  const saw = partOf(`${LINE}allowance: {saw: 2}\n`);
  expect(partLines(saw, ['chord', 'saw', 'finished']).map(({ role }) => role)).toEqual([
    'chord',
    'saw',
    'finished',
  ]);
});
