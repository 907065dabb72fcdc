import { expect, test } from 'vitest';
import { bestGrainDirection, worstRunout } from '../../../src/shop/wood/grain-runout.ts';
import { partOf } from '../../part/jobs.ts';

const part = (step: string) =>
  partOf(`part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - ${step}\n`);

test('a straight edge that rises 50 in 500 has a runout of 1 in 10', () => {
  expect(1 / Math.tan(worstRunout(part('line: [500, 50]'), 0).angle)).toBeCloseTo(10, 9);
});

test('an arc has its worst runout at an end, by the slope of its tangent', () => {
  // Rise 50 on 600: radius 600²/(8·50) + 50/2 = 925; the tangent at the end is 300 to 925 − 50 (by hand).
  const runout = worstRunout(part('arc: [600, 0]\n      rise: 50'), 0);
  expect(1 / Math.tan(runout.angle)).toBeCloseTo(875 / 300, 9);
  expect([0, 600]).toContain(Math.round(runout.at.x));
});

test('a part along its grain has no runout', () => {
  expect(worstRunout(part('line: [500, 0]'), 0).angle).toBe(0);
});

test('a shoulder does not count as runout, but its neighbors do', () => {
  const stepped = part('line: [200, 0]\n    - line: [200, 40]\n    - line: [500, 70]');
  expect(1 / Math.tan(worstRunout(stepped, 0).angle)).toBeCloseTo(10, 9);
  expect(bestGrainDirection(stepped)).toBeCloseTo(Math.atan(0.1) / 2, 2);
});
