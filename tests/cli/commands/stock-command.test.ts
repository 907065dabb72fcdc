import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { BRACKET, fairlath, folderWithSamples, LEG } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const json = (...args: string[]) => JSON.parse(fairlath(['stock', ...args, '--json']).out);
const ARC = ['stock', '--curve', 'arc', '--chord', '28', '--rise', '3/4'];

const MISTAKES: readonly Mistake[] = [
  [['stock', LEG, '--board-width', '2'], 'nesting.too-narrow', '--board-width'],
  [['stock', LEG, '--kerf', '-1'], 'length.negative', '--kerf'],
  [['stock', LEG, '--grain', '95'], 'angle.too-large', '--grain'],
  [['stock', LEG, '--picture', LEG], 'file.is-input'],
  [[...ARC, '--board-width', '10'], 'nesting.one-edge', '--board-width'],
  [[...ARC, '--picture', 'board.svg'], 'nesting.one-edge', '--picture'],
];

describe('fairlath stock', () => {
  test('its JSON has the blank, its layers, weight, nesting and grain, in mm and kg', () => {
    const answer = json(LEG, '--board-width', '10');
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
    expect(boardFeet).toBeCloseTo((blank.length * blank.width * blank.thickness) / 25.4 ** 3 / 144, 9);
    expect(inAll.mass).toBeCloseTo(2 * mass, 12);
    expect(nesting.pitch).toBeLessThan(nesting.rectanglePitch);
    expect(nesting.copies).toHaveLength(2);
    expect(grain.strength).toBeLessThan(grain.strengthMost);
    expect(grain.sectionRatio).toBeLessThan(1);
  });

  test('a turned grain takes a wider blank', () => {
    const turned = json(LEG, '--grain', '1 in 20');
    expect(turned.grain.turnDeg).toBeCloseTo((Math.atan(1 / 20) * 180) / Math.PI, 9);
    expect(turned.blank.width).toBeGreaterThan(json(LEG).blank.width);
  });

  test('a quick line has a blank and its grain, and no boards', () => {
    const { blank, grain, nesting } = json(...ARC.slice(1));
    expect(blank.length).toBeGreaterThan(28 * 25.4);
    expect(grain.worstDeg).toBeGreaterThan(0);
    expect(nesting).toBeUndefined();
  });

  test('draws the board', () => {
    const { path } = folderWithSamples();
    expect(fairlath(['stock', LEG, '--picture', 'board.svg'], path).code).toBe(0);
    expect(readFileSync(join(path, 'board.svg'), 'utf8')).not.toMatch(/NaN|Infinity/);
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords('stock', [
      ['stock', '--help'],
      ['stock', LEG, '--board-width', '10'],
      ['stock', LEG, '--grain', '1 in 20'],
      ['stock', LEG, '--grain', '6'],
      ['stock', BRACKET],
      ['stock', 'samples/hall-bench-stretcher.yaml'],
      ARC,
      ...MISTAKES.map(([args]) => args),
    ]));
});
