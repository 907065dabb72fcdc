import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bladeDepth, compoundAngles, levelFaceStance } from '../../../src/part/ends/compound-angles.ts';
import { showOnRule } from '../../../src/units/rule.ts';

const rad = (degrees: number): number => (degrees * Math.PI) / 180;
const deg = (radians: number): number => (radians * 180) / Math.PI;
type Vector = readonly [number, number, number];
type Matrix = readonly [Vector, Vector, Vector];
const times = (m: Matrix, v: Vector): Vector =>
  m.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as unknown as Vector;
const aboutAcross = (a: number): Matrix => [
  [Math.cos(a), 0, -Math.sin(a)],
  [0, 1, 0],
  [Math.sin(a), 0, Math.cos(a)],
];
const aboutUpright = (a: number): Matrix => [
  [Math.cos(a), -Math.sin(a), 0],
  [Math.sin(a), Math.cos(a), 0],
  [0, 0, 1],
];

/** An angle as a shop cuts it, either way. */
const angle = fc.double({ min: -70, max: 70, noNaN: true, noDefaultInfinity: true }).map(rad);
/** Rounding of a few tangents of angles up to 70°. */
const ROUNDING = 12;

describe('a leg’s rake and splay', () => {
  // Computed from tan ρ = √(tan² α + tan² β), tan σ = tan β ÷ tan α; no published example seen.
  test.each([
    [14, 10, 16.98, 35.27],
    [10, 5, 11.14, 26.39],
    [20, 15, 24.32, 36.36],
    [12, 12, 16.73, 45],
    [5, 5, 7.05, 45],
  ])('of %f° and %f° lean %f° along a sight line at %f°', (rake, splay, lean, sight) => {
    const angles = compoundAngles({ by: 'stance', rake: rad(rake), splay: rad(splay) });
    expect(deg(angles.lean)).toBeCloseTo(lean, 2);
    expect(deg(angles.sight)).toBeCloseTo(sight, 2);
  });

  test('saw angles and leg angles give the same plane', () => {
    fc.assert(
      fc.property(angle, angle, (rake, splay) => {
        const leg = compoundAngles({ by: 'stance', rake, splay });
        const saw = compoundAngles({ by: 'miter', miter: leg.miter, bevel: leg.bevel });
        for (const name of ['miter', 'bevel', 'rake', 'splay', 'lean'] as const)
          expect(saw[name]).toBeCloseTo(leg[name], ROUNDING);
        expect(Math.sin(saw.sight)).toBeCloseTo(Math.sin(leg.sight), 6);
      }),
    );
  });

  test('turned about, it leans as far the other way', () => {
    fc.assert(
      fc.property(angle, angle, (rake, splay) => {
        const one = compoundAngles({ by: 'stance', rake, splay });
        const other = compoundAngles({ by: 'stance', rake: -rake, splay: -splay });
        expect(other.miter).toBeCloseTo(-one.miter, ROUNDING);
        expect(other.bevel).toBeCloseTo(-one.bevel, ROUNDING);
        expect(other.lean).toBeCloseTo(one.lean, ROUNDING);
      }),
    );
  });
});

test('a leg turned until its marked face is level across reads other elevations', () => {
  fc.assert(
    fc.property(angle, angle, (rake, splay) => {
      const angles = compoundAngles({ by: 'stance', rake, splay });
      // Up in the leg's frame, and level the way the marked face looks.
      const length = Math.hypot(1, Math.tan(rake), Math.tan(splay));
      const up = [1 / length, Math.tan(rake) / length, Math.tan(splay) / length] as const;
      const size = Math.hypot(up[0] * up[2], up[1] * up[2], 1 - up[2] ** 2);
      const out = [(-up[0] * up[2]) / size, (-up[1] * up[2]) / size, (1 - up[2] ** 2) / size] as const;
      const aside = [up[1] * out[2] - up[2] * out[1], 0, 0] as const;
      const level = levelFaceStance(angles);
      // The leg's length is the first axis: how far it goes out and aside for its rise.
      expect(-out[0] / up[0]).toBeCloseTo(Math.tan(level.splay), 6);
      expect(Math.abs(aside[0] / up[0])).toBeCloseTo(Math.abs(Math.tan(level.rake)), 6);
      expect(level.rake * rake).toBeGreaterThanOrEqual(0);
    }),
  );
  const { rake, splay } = levelFaceStance(compoundAngles({ by: 'stance', rake: rad(15), splay: rad(15) }));
  expect([deg(rake), deg(splay)]).toEqual([expect.closeTo(15.47, 2), expect.closeTo(14.51, 2)]);
});

describe('a saw’s cut', () => {
  test('is the plane of a blade tilted about the feed, the work turned by the gauge', () => {
    fc.assert(
      fc.property(angle, angle, (miter, bevel) => {
        // Square across, then tilted about the line across the part, then swung about the upright.
        const normal = times(aboutUpright(miter), times(aboutAcross(bevel), [1, 0, 0]));
        const { rake, splay, lean } = compoundAngles({ by: 'miter', miter, bevel });
        expect(normal[1] / normal[0]).toBeCloseTo(Math.tan(rake), 9);
        expect(normal[2] / normal[0]).toBeCloseTo(Math.tan(splay), 9);
        expect(Math.acos(normal[0])).toBeCloseTo(lean, 6);
      }),
    );
  });

  test('is the same from the other face, turned end for end, the gauge swung as far the other way', () => {
    fc.assert(
      fc.property(angle, angle, (miter, bevel) => {
        const cut = (swing: number) => times(aboutUpright(swing), times(aboutAcross(bevel), [1, 0, 0]));
        const [first, second] = [cut(miter), times(aboutAcross(Math.PI), cut(-miter))];
        // A plane's normal may point either way.
        for (const axis of [0, 1, 2] as const) expect(-second[axis]).toBeCloseTo(first[axis], ROUNDING);
      }),
    );
  });
});

describe('the mitred sides of splayed work', () => {
  // A table saw's owner's manual, "Compound-angle settings": pitch of the side, sides, miter, bevel, degrees.
  test.each([
    [5, 4, 44.89, 3.53],
    [10, 6, 29.62, 4.98],
    [10, 8, 22.19, 3.81],
    [15, 8, 21.81, 5.68],
    [30, 4, 40.89, 20.7],
    [45, 4, 35.26, 30],
    [45, 6, 22.21, 20.7],
    [60, 8, 11.7, 19.35],
    [80, 4, 9.85, 44.14],
    [90, 6, 0, 30],
  ])('at a pitch of %f°, %i of them', (pitch, sides, miter, bevel) => {
    // Corners stand in upright planes through the middle: the cut's normal in the side's own frame.
    const [half, slope] = [Math.PI / sides, rad(pitch)];
    const normal = [Math.cos(half), Math.sin(half) * Math.cos(slope), Math.sin(half) * Math.sin(slope)];
    const angles = compoundAngles({
      by: 'stance',
      rake: Math.atan(normal[1]! / normal[0]!),
      splay: Math.atan(normal[2]! / normal[0]!),
    });
    expect(Math.abs(deg(angles.miter) - miter)).toBeLessThan(0.0051);
    expect(Math.abs(deg(angles.bevel) - bevel)).toBeLessThan(0.0051);
  });
});

test('3 1/2 in at a bevel of 12° needs 3 9/16 full of blade', () => {
  // 3.5 ÷ cos 12° = 3.57819 in, 0.0157 past 3 9/16: more than a quarter of 1/16
  const depth = bladeDepth(3.5 * 25.4, rad(12));
  expect(depth / 25.4).toBeCloseTo(3.57819, 5);
  expect(showOnRule(depth, { unit: 'in', graduation: { numerator: 1, denominator: 16 } })).toBe(
    '3 9/16 full',
  );
});

test('a square end has no angle', () => {
  expect(Object.values(compoundAngles({ by: 'square' }))).toEqual([0, 0, 0, 0, 0, 0]);
});
