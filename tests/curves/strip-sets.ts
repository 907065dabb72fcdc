import fc from 'fast-check';
import { type Strip, type StripEnd, type StripEnds, strip } from '../../src/curves/elastica/solve-strip.ts';
import type { Point } from '../../src/curves/geometry/point.ts';
import { Fault } from '../../src/units/fault.ts';

export const number = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

/** Pins over a chord of 1000 and how the ends are kept. */
export interface PinSet {
  readonly pins: readonly Point[];
  readonly ends: StripEnds;
}

const end: fc.Arbitrary<StripEnd> = fc.oneof(
  fc.constant('free' as const),
  number(-0.8, 0.8).map((held) => ({ held })),
);

/** 3 to 7 pins, unevenly spaced, with offsets up to `most` of the chord either way; ends free or held. */
export const pinSets = (most: number): fc.Arbitrary<PinSet> =>
  fc
    .record({
      steps: fc.array(number(0.4, 1.6), { minLength: 2, maxLength: 6 }),
      offsets: fc.array(number(-1, 1), { minLength: 5, maxLength: 5 }),
      scale: number(0, most),
      start: end,
      end,
    })
    .map(({ steps, offsets, scale, start, end }) => {
      const whole = steps.reduce((a, b) => a + b);
      let at = 0;
      const inner = steps.slice(0, -1).map((step, i) => {
        at += step;
        return { x: (1000 * at) / whole, y: 1000 * scale * offsets[i]! };
      });
      return { pins: [{ x: 0, y: 0 }, ...inner, { x: 1000, y: 0 }], ends: { start, end } };
    });

/** The strip, or undefined where there is none and the fault says so. */
export function stripOr({ pins, ends }: PinSet): Strip | undefined {
  try {
    return strip(pins, ends);
  } catch (fault) {
    if (fault instanceof Fault && fault.code === 'batten.too-high') return undefined;
    throw fault;
  }
}
