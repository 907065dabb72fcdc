import { describe, expect, test } from 'vitest';
import { pinForces, pulling } from '../../src/curves/pin-forces.ts';
import type { Point } from '../../src/curves/point.ts';
import { strip } from '../../src/curves/strip.ts';
import { FREE } from './batten-cases.ts';

const over = (...pins: [number, number][]): Point[] => pins.map(([x, y]) => ({ x, y }));

describe('where the nails stand', () => {
  test('a strip over one nail presses on it from above, and from below on its ends', () => {
    const { pins } = strip(over([0, 0], [500, 60], [1000, 0]), FREE);
    expect(pins.map(({ side }) => side)).toEqual(['left', 'right', 'left']);
    expect(pulling(pins)).toEqual([]);
  });

  test('under the chord it is the other way round', () => {
    const { pins } = strip(over([0, 0], [500, -60], [1000, 0]), FREE);
    expect(pins.map(({ side }) => side)).toEqual(['right', 'left', 'right']);
    expect(pulling(pins)).toEqual([]);
  });

  test('a nail that holds a sheer down goes on the outer side, and would have to pull from within', () => {
    // The reference case of four pins: force −0.0759 at the second, to 5.16 at the third.
    const { pins } = strip(over([0, 0], [300, 80], [650, 100], [1000, 0]), FREE);
    expect(pins.map(({ side }) => side)).toEqual(['left', 'left', 'right', 'left']);
    expect(pulling(pins)).toEqual([1]);
  });

  test('a pin where the strip would lie anyhow need stand on neither side', () => {
    const { pins } = strip(over([0, 0], [200, 0], [1000, 0]), FREE);
    expect(pins.map(({ side }) => side)).toEqual([undefined, undefined, undefined]);
  });
});

test('the forces of free pins balance, and so do their moments', () => {
  const { pins, spans } = strip(over([0, 0], [220, 90], [510, 20], [800, -60], [1000, 40]), FREE);
  const largest = Math.max(...pins.map(({ reaction }) => Math.abs(reaction)));
  const vectors = pins.map(({ at, angle, reaction }) => ({
    at,
    x: -Math.sin(angle) * reaction,
    y: Math.cos(angle) * reaction,
  }));
  const sum = (f: (v: (typeof vectors)[number]) => number): number => vectors.reduce((t, v) => t + f(v), 0);
  expect(Math.abs(sum(({ x }) => x))).toBeLessThan(1e-9 * largest);
  expect(Math.abs(sum(({ y }) => y))).toBeLessThan(1e-9 * largest);
  expect(Math.abs(sum(({ at, x, y }) => at.x * y - at.y * x))).toBeLessThan(1e-9 * largest * 1000);
  expect(pinForces(spans)).toEqual(pins);
});

test('straight lines and arcs have no pins', () => {
  expect(pinForces([{ type: 'line', from: { x: 0, y: 0 }, to: { x: 1, y: 0 } }])).toEqual([]);
});
