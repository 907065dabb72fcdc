import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { fairlath, freshFolder } from '../run.ts';

const LEG = 'samples/hall-bench-leg.yaml';

test('JSON has the blank, its layers, weight, nesting and grain, in mm and kg', () => {
  const { code, out } = fairlath(['stock', LEG, '--board-width', '10', '--json']);
  const answer = JSON.parse(out);
  expect(code).toBe(0);
  expect(answer).toMatchObject({
    command: 'stock',
    part: 'Hall bench leg',
    units: 'mm',
    layers: [{ count: 1, quarter: '8/4', rough: 50.8 }, {}, {}, {}],
    species: 'White oak',
    nesting: {
      across: 2,
      along: 1,
      perBoard: 2,
      boards: 1,
      gap: 3.175,
      board: { length: 914.4, width: 254 },
    },
    grain: { turnDeg: 0, edge: 'back', band: 'caution' },
  });
  const { blank, boardFeet, nesting, grain, inAll, mass } = answer;
  const inches = [blank.length, blank.width, blank.thickness].map((mm: number) => mm / 25.4);
  expect(boardFeet).toBeCloseTo((inches[0]! * inches[1]! * inches[2]!) / 144, 9);
  expect(inAll.mass).toBeCloseTo(2 * mass, 12);
  expect(nesting.pitch).toBeLessThan(nesting.rectanglePitch);
  expect(nesting.copies).toHaveLength(2);
  expect(grain.strength).toBeLessThan(grain.strengthMost);
  expect(grain.sectionRatio).toBeLessThan(1);
});

test('a turned grain takes a wider blank, and says so in words', () => {
  const { code, out } = fairlath(['stock', LEG, '--grain', '1 in 20']);
  expect(code).toBe(0);
  expect(out).toContain('Grain turned 2.9°');
  expect(fairlath(['stock', LEG, '--grain', '6']).out).toContain('Grain turned 6°\n');
  expect(out).toMatch(/cut it to 34 11\/16 × 4 23\/32/);
});

test('wood is counted and weighed as the unit of the job has it', () => {
  const inches = fairlath(['stock', LEG]).out;
  expect(inches).toMatch(/a blank holds [\d.]+ board feet$/m);
  expect(inches).toMatch(/weighs about [\d.]+ lb, its blank [\d.]+ lb/);
  const millimetres = fairlath(['stock', 'samples/wall-shelf-bracket.yaml']).out;
  expect(millimetres).toMatch(/a blank holds [\d.]+ m³$/m);
  expect(millimetres).toMatch(/weighs about [\d.]+ kg, its blank [\d.]+ kg/);
});

test('the board is drawn, and never over a file of the user', () => {
  const folder = freshFolder();
  try {
    const picture = join(folder, 'board.svg');
    expect(fairlath(['stock', LEG, '--picture', picture]).code).toBe(0);
    const svg = readFileSync(picture, 'utf8');
    expect(svg).toContain('<title>Hall bench leg: the board</title>');
    expect(svg).not.toMatch(/NaN|Infinity/);
    expect(fairlath(['stock', LEG, '--picture', LEG])).toMatchObject({ code: 2 });
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('a quick line has a blank and its grain; boards and a picture need both edges', () => {
  const quick = ['--curve', 'arc', '--chord', '28', '--rise', '3/4'];
  const { code, out } = fairlath(['stock', ...quick]);
  expect(code).toBe(0);
  expect(out).toContain('one edge only');
  expect(out).not.toContain('Laid on boards');
  for (const more of [
    ['--board-width', '10'],
    ['--picture', 'board.svg'],
  ]) {
    const answer = fairlath(['stock', ...quick, ...more]);
    expect(answer.code).toBe(2);
    expect(answer.err).toContain('Set out the other edge too');
  }
});

test.each([
  [['--board-width', '2'], '--board-width: the part takes'],
  [['--kerf', '-1'], '--kerf:'],
  [['--grain', '95'], '--grain:'],
])('%j is told of at its option', (more, words) => {
  const { code, err } = fairlath(['stock', LEG, ...more]);
  expect(code).toBe(2);
  expect(err).toContain(`error: ${words}`);
});
