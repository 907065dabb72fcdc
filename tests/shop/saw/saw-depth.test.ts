import { describe, expect, test } from 'vitest';
import { bladeReach, COMMON_SAWS, planEndCut } from '../../../src/shop/saw/saw-depth.ts';
import { describeEnd } from '../../../src/shop/words/describe-ends.ts';
import { showLength } from '../../../src/units/rule.ts';
import { partOf } from '../../part/jobs.ts';

const INCH = 25.4;
const SAW = COMMON_SAWS[0];
const rad = (degrees: number): number => (degrees * Math.PI) / 180;

const post = (ends: string, thickness = '3 1/2') =>
  partOf(`part: Post
units: in
graduation: 1/16
stock: {thickness: ${thickness}}
edges:
  lower:
    - from: [0, 0]
    - line: [30, 0]
  upper:
    - from: [0, 4]
    - line: [30, 4]
ends: ${ends}
`);

const right = (ends: string, thickness?: string, saw = SAW) => {
  const part = post(ends, thickness);
  const rounded = (mm: number): string => showLength(mm, part.rule);
  const cut = planEndCut(part.ends![1], part.stock?.thickness, saw);
  return {
    cut,
    words: describeEnd(cut, part.stock?.thickness, saw, { exact: rounded, rounded, unit: 'in' }).join('\n'),
  };
};

describe('depth of cut at an end', () => {
  test('3 1/2 in at a bevel of 12° is too deep for 3 1/8 in of blade: cut from two faces', () => {
    const { cut, words } = right('{right: {bevel: 12}}');
    // 3.5 ÷ cos 12° in
    expect(cut.needs).toBeCloseTo(3.578192 * INCH, 4);
    expect(cut.passes).toBe('two faces');
    expect(words).toContain('3 1/2 in thick at a blade tilt of 12° needs 3 9/16 in full of blade');
    expect(words).toContain(
      'a common 10 in table saw gives 3 1/8 in: cut from two faces, or take a common 12 in table saw',
    );
    expect(words).toContain('turn the part end for end onto its other face');
  });

  test('thin stock is cut in one pass, thick stock leaves wood between two', () => {
    expect(right('{right: {bevel: 12}}', '1 3/4').cut.passes).toBe('one face');
    const { cut, words } = right('{right: {bevel: 12}}', '7');
    expect(cut.passes).toBe('too thick');
    expect(words).toMatch(/by hand/);
  });

  test('blade and gauge go only so far', () => {
    expect(right('{right: {bevel: 45}}', '1').cut.passes).toBe('one face');
    expect(right('{right: {bevel: 46}}', '1').cut.passes).toBe('too steep');
    expect(right('{right: {miter: 61}}', '1').words).toMatch(/steeper than a table saw is commonly set/);
  });

  test('the thickness at the very depth of the blade still goes through', () => {
    expect(right('{left: square}', '3 1/8').cut.passes).toBe('one face');
  });
});

describe('how far the blade reaches', () => {
  // Common practice, from memory: 3 1/8 in upright, 2 1/8 to 2 1/4 in at 45°; 4 in and 2 3/4 in.
  test('of common saws, upright and at 45°', () => {
    const through = (saw: (typeof COMMON_SAWS)[number], bevel: number) =>
      (bladeReach(saw, rad(bevel)) * Math.cos(rad(bevel))) / INCH;
    expect(through(COMMON_SAWS[0], 0)).toBeCloseTo(3.125, 9);
    expect(through(COMMON_SAWS[0], 45)).toBeGreaterThan(2.125);
    expect(through(COMMON_SAWS[0], 45)).toBeLessThan(2.25);
    expect(through(COMMON_SAWS[1], 0)).toBeCloseTo(4, 9);
    expect(through(COMMON_SAWS[1], 45)).toBeCloseTo(2.75, 9);
  });

  test('of the maker’s own, between its two figures in between', () => {
    const saw = { name: 'this saw', depth: 80, depthAt45: 54 };
    expect(bladeReach(saw, rad(-45))).toBeCloseTo(54 * Math.SQRT2, 9);
    expect(bladeReach(saw, rad(22.5))).toBeCloseTo((80 + 54 * Math.SQRT2) / 2, 9);
  });
});

test('an end in words: the saw’s angles, the leg’s, and the sight line', () => {
  // tan 16.98° = √(tan² 14° + tan² 10°), tan 35.27° = tan 10° ÷ tan 14° (computed)
  const { words } = right('{right: {rake: 14, splay: 10}}', '1 3/4');
  expect(words).toContain('miter 14°, blade tilt 9.7°');
  expect(words).toContain(
    'a lean of 17° along a sight line 35.3° from the line square to the reference edge towards the marked face',
  );
  expect(words).toMatch(/long point: station 30 in, offset 0 in, on the other face/);
  expect(right('{right: {rake: -14, splay: -10}}', '1 3/4').words).toContain(
    'sight line 35.3° from the line square to the far edge towards the other face',
  );
  expect(right('{right: {miter: 6}}', '1').words).toContain('right end: miter 6°, blade upright');
});
