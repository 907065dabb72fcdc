import { describe, expect, test } from 'vitest';
import { riseLimit } from '../../../src/curves/elastica/rise-limit.ts';
import { strip } from '../../../src/curves/elastica/solve-strip.ts';
import { freeRiseLimit } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { reference } from '../reference.ts';

/** What the search promises is 1e-8 of the chord; the folds among the references are good to 1e-10. */
const NEAR = 1e-7;
const FLAT = { held: 0 };

const limits = reference.existenceLimits;

describe.each(limits.both)('both ends held, nail at $x_over_c', ({ x_over_c: x, limit_h_over_c: limit }) => {
  test('the strip rises to the reference limit', () => {
    expect(Math.abs(riseLimit(x, 0, 0)! - limit)).toBeLessThan(NEAR);
  });

  test('a rise just below the limit is accepted, just above it is refused', () => {
    const over = (share: number) => () =>
      strip(
        [
          { x: 0, y: 0 },
          { x: 1000 * x, y: 1000 * limit * share },
          { x: 1000, y: 0 },
        ],
        {
          start: FLAT,
          end: FLAT,
        },
      );
    expect(over(1 - 1e-5)).not.toThrow();
    expect(over(1 + 1e-5)).toThrow(expect.objectContaining({ code: 'batten.too-high' }));
  });
});

describe.each(limits.heldA)(
  'held at the start, nail at $x_over_c',
  ({ x_over_c: x, limit_h_over_c: limit }) => {
    test('the strip rises to the reference limit, above the chord and below', () => {
      expect(Math.abs(riseLimit(x, 0, undefined)! - limit)).toBeLessThan(NEAR);
      expect(Math.abs(riseLimit(x, 0, undefined, -1)! - limit)).toBeLessThan(NEAR);
    });

    test('the strip held at its other end has the mirrored limit', () => {
      expect(Math.abs(riseLimit(1 - x, undefined, 0)! - limit)).toBeLessThan(NEAR);
    });
  },
);

test.each(limits.free)(
  'free ends, nail at $x_over_c: followed up, the strip leaves its nail where one lobe passes',
  ({ x_over_c: x, limit_h_over_c: limit }) => {
    expect(Math.abs(riseLimit(x, undefined, undefined)! - limit)).toBeLessThan(NEAR);
    // Very near an end the strip snaps a little above the lobe: the closed form is on the safe side.
    expect(freeRiseLimit(x)).toBeLessThan(limit + NEAR);
    expect(freeRiseLimit(x)).toBeGreaterThan(limit * 0.99);
  },
);

test('the fault gives the limit at that station', () => {
  // Both ends held, nail at a tenth: 0.32744 of the chord.
  const pins = [
    { x: 0, y: 0 },
    { x: 100, y: -400 },
    { x: 1000, y: 0 },
  ];
  expect(() => strip(pins, { start: FLAT, end: FLAT })).toThrow(/400 mm off .* up to 327\.4\d+ mm/);
});

test('held ends without an equilibrium have no limit', () => {
  expect(riseLimit(0.5, 3, -3)).toBeUndefined();
});
