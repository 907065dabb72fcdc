import { expect, test } from 'vitest';
import { grainRunout } from '../../src/shop/runout.ts';
import { partOf } from '../part/jobs.ts';

const part = (step: string) =>
  partOf(`part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - ${step}\n`);

test('a straight edge that rises 50 in 500 runs out 1 in 10, all along', () => {
  expect(grainRunout(part('line: [500, 50]'))?.along).toBeCloseTo(10, 9);
});

test('an arc runs out most where it starts, by its half chord over what is left of its radius', () => {
  // Rise 50 on 600: radius 600²/(8·50) + 50/2 = 925; the tangent at the end is 300 to 925 − 50 (by hand).
  const runout = grainRunout(part('arc: [600, 0]\n      rise: 50'));
  expect(runout?.along).toBeCloseTo(875 / 300, 9);
  expect(runout?.at.x).toBeCloseTo(0, 6);
});

test('a part along its grain runs out nowhere', () => {
  expect(grainRunout(part('line: [500, 0]'))).toBeUndefined();
});
