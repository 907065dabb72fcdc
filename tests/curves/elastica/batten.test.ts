import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { nailForApex as nailed } from '../../../src/curves/elastica/nail-for-apex.ts';
import { freeRiseLimit } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { distance } from '../../../src/curves/geometry/point.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';

const nailForApex = (...given: Parameters<typeof nailed>) => nailed(...given).nail;

const from = { x: 0, y: 0 };
const to = { x: 700, y: 0 };

describe('a batten by its apex', () => {
  test('an apex in the middle wants the nail there', () => {
    const nail = nailForApex(from, to, { x: 350, y: 20 }, { start: 'free', end: 'free' });
    expect(distance(nail, { x: 350, y: 20 })).toBeLessThan(1e-6);
  });

  test('property: the nail puts the apex at the given place', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 0.8, noNaN: true }),
        fc.double({ min: 1e-3, max: 0.9, noNaN: true }),
        fc.boolean(),
        (share, of, under) => {
          const nail = { x: 700 * share, y: (under ? -1 : 1) * 700 * of * freeRiseLimit(share) };
          const { apex } = figuresOf(batten(from, to, { nail }));
          const found = figuresOf(batten(from, to, { apex: apex!.at })).apex!.at;
          expect(distance(found, apex!.at)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  const nearestNamed = (rise: number): number => {
    try {
      batten(from, to, { apex: { x: 650, y: rise } });
    } catch (error) {
      return Number(/nearest possible apex is at station ([\d.]+) mm/.exec((error as Error).message)![1]);
    }
    throw new Error('an apex so near the end must be refused');
  };

  test('an apex beyond reach is refused with the nearest, for a shallow strip 1/√3 of the chord from the far end', () => {
    expect(() => batten(from, to, { apex: { x: 600, y: 20 } })).toThrow(
      expect.objectContaining({ code: 'batten.no-such-apex' }),
    );
    // AISC Table 3-23: √((L² − b²)/3) as the load nears the support, b → 0.
    // Less what both its coordinates may be rounded by when they are typed.
    expect(nearestNamed(0.05)).toBeCloseTo(700 / Math.sqrt(3) - 0.8 * Math.SQRT2, 1);
  });

  test.each([1, 20, 100, 250, 400, 500, 560])(
    'the nearest apex named for a rise of %f of 700 can be had, and 4 mm farther cannot',
    (rise) => {
      const nearest = nearestNamed(rise);
      const had = figuresOf(batten(from, to, { apex: { x: nearest - 0.01, y: rise } })).apex!.at;
      expect(distance(had, { x: nearest - 0.01, y: rise })).toBeLessThan(1e-6);
      expect(() => batten(from, to, { apex: { x: nearest + 4, y: rise } })).toThrow();
    },
  );

  test.each([
    { by: { apex: { x: 350, y: 590 } }, code: 'batten.too-high' },
    { by: { apex: { x: 350, y: 0 } }, code: 'batten.no-such-apex' },
    { by: { nail: { x: 0, y: 0 } }, code: 'curve.same-point' },
    { by: { nail: { x: 350, y: Number.POSITIVE_INFINITY } }, code: 'curve.not-finite' },
  ])('$by is refused', ({ by, code }) => {
    expect(() => batten(from, to, by)).toThrow(expect.objectContaining({ code }));
  });
});

test('the nail is not the apex: at a quarter of a shallow chord it rises 24.2 % higher', () => {
  // Simple beam: apex at 0.440983 of the chord, 1.24226 times the nail's offset (AISC Table 3-23, case 8).
  const { apex } = figuresOf(batten(from, to, { nail: { x: 175, y: 0.7 } }));
  expect(apex!.at.x / 700).toBeCloseTo(0.440983, 4);
  expect(apex!.rise / 0.7).toBeCloseTo(1.24226, 4);
});
