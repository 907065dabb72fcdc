import fc from 'fast-check';
import type { Curve } from '../../src/curves/curve.ts';
import { paramCurve, pieceLength } from '../../src/curves/geometry/evaluate.ts';
import type { SprungLine } from '../../src/shop/strip/sprung-line.ts';

/**
 * The shallow strip over pins at 0, half and whole of a span, lifted in the middle: a simply supported beam with
 * a load at its centre. Curvature there 12y/L², reaction 48y/L³ at the nail, half of it back at each end.
 */
export function shallowLine(span: number, rise: number): SprungLine {
  const reaction = (48 * rise) / span ** 3;
  const pin = (x: number, y: number, push: number) => ({
    at: { x, y },
    angle: 0,
    curvature: x === span / 2 ? (-12 * rise) / span ** 2 : 0,
    reaction: push * reaction,
    share: 1,
  });
  return {
    length: span,
    worst: { curvature: (12 * rise) / span ** 2, share: 1, at: { x: span / 2, y: rise } },
    pins: [pin(0, 0, -0.5), pin(span / 2, rise, 1), pin(span, 0, -0.5)],
    ends: ['free', 'free'],
  };
}

/** Shallow strips from a drawer front to an arch. */
export const anyShallowLine = (): fc.Arbitrary<SprungLine> =>
  fc
    .tuple(fc.double({ min: 100, max: 4000, noNaN: true }), fc.double({ min: 0.005, max: 0.1, noNaN: true }))
    .map(([span, share]) => shallowLine(span, share * span));

/** Step of the difference quotients, as a share of a span: squared, with the rounding it lets in, it gives the error. */
const STEP = 1e-4;
/** What the quotients leave of a reaction, as a share: STEP² times a curvature's third derivative, of order 10. */
export const QUOTIENT_ERROR = 1e-6;

/** The reactions of a batten's pins: κ′ after each pin less κ′ before it, by one-sided difference quotients. */
export function battenReactions({ exact }: Curve): number[] {
  const rates = exact.map((piece) => {
    const at = paramCurve(piece);
    const rate = (u: number, step: number): number =>
      (4 * at(u + step).curvature - at(u + 2 * step).curvature - 3 * at(u).curvature) /
      (2 * step * pieceLength(piece));
    return [rate(0, STEP), rate(1, -STEP)] as const;
  });
  const before = [0, ...rates.map(([, end]) => end)];
  const after = [...rates.map(([start]) => start), 0];
  return after.map((rate, i) => rate - before[i]!);
}
