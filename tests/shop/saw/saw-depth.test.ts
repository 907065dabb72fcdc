import { describe, expect, test } from 'vitest';
import { longAndShortPoints } from '../../../src/part/ends/end-planes.ts';
import { bladeReach, COMMON_SAWS, type EndCut, planEndCut } from '../../../src/shop/saw/saw-depth.ts';
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

const right = (ends: string, thickness?: string, saw = SAW): EndCut => {
  const part = post(ends, thickness);
  return planEndCut(part.ends![1], part.stock?.thickness, saw);
};

describe('planEndCut', () => {
  test('3 1/2 in at a bevel of 12° is cut from two faces with 3 1/8 in of blade', () => {
    const cut = right('{right: {bevel: 12}}');
    // 3.5 ÷ cos 12° in
    expect(cut.needs).toBeCloseTo(3.578192 * INCH, 4);
    expect(cut.passes).toBe('two faces');
  });

  test('thin stock takes one pass, and thick stock leaves wood between two', () => {
    expect(right('{right: {bevel: 12}}', '1 3/4').passes).toBe('one face');
    const cut = right('{right: {bevel: 12}}', '7');
    expect(cut.passes).toBe('too thick');
  });

  test('a bevel over 45° or a miter over 60° is too steep', () => {
    expect(right('{right: {bevel: 45}}', '1').passes).toBe('one face');
    expect(right('{right: {bevel: 46}}', '1').passes).toBe('too steep');
    expect(right('{right: {miter: 61}}', '1').passes).toBe('too steep');
  });

  test('a thickness equal to the depth of the blade takes one pass', () => {
    expect(right('{left: square}', '3 1/8').passes).toBe('one face');
  });
});

describe('bladeReach', () => {
  // Common practice, from memory: 3 1/8 in upright, 2 1/8 to 2 1/4 in at 45°; 4 in and 2 3/4 in.
  test('common saws reach the usual depths, upright and at 45°', () => {
    const through = (saw: (typeof COMMON_SAWS)[number], bevel: number) =>
      (bladeReach(saw, rad(bevel)) * Math.cos(rad(bevel))) / INCH;
    expect(through(COMMON_SAWS[0], 0)).toBeCloseTo(3.125, 9);
    expect(through(COMMON_SAWS[0], 45)).toBeGreaterThan(2.125);
    expect(through(COMMON_SAWS[0], 45)).toBeLessThan(2.25);
    expect(through(COMMON_SAWS[1], 0)).toBeCloseTo(4, 9);
    expect(through(COMMON_SAWS[1], 45)).toBeCloseTo(2.75, 9);
  });

  test('the maker’s own saw reaches a depth interpolated between its two figures', () => {
    const saw = { name: { in: 'this saw', mm: 'this saw' }, depth: 80, depthAt45: 54 };
    expect(bladeReach(saw, rad(-45))).toBeCloseTo(54 * Math.SQRT2, 9);
    expect(bladeReach(saw, rad(22.5))).toBeCloseTo((80 + 54 * Math.SQRT2) / 2, 9);
  });
});

test('an end has the lean and the sight line of its rake and splay', () => {
  // tan 16.98° = √(tan² 14° + tan² 10°), tan 35.27° = tan 10° ÷ tan 14° (computed)
  const { end } = right('{right: {rake: 14, splay: 10}}', '1 3/4');
  expect(end.angles.lean).toBeCloseTo(rad(16.98), 3);
  expect(Math.abs(end.angles.sight)).toBeCloseTo(rad(35.27), 3);
  expect(longAndShortPoints(end).long).toMatchObject({
    x: expect.closeTo(30 * INCH, 9),
    y: expect.closeTo(0, 9),
    on: 'back',
  });
  const back = right('{right: {rake: -14, splay: -10}}', '1 3/4').end.angles;
  expect(back.lean).toBeCloseTo(end.angles.lean, 9);
  expect(Math.abs(back.sight)).toBeCloseTo(Math.PI - rad(35.27), 3);
});
