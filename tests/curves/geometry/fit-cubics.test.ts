import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { freeRiseLimit, solveThreePinStrip } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { fitPath } from '../../../src/curves/geometry/fit-cubics.ts';
import type { ArcSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { arcToCubics } from '../../../src/curves/geometry/transform.ts';
import { largestGap, spread, worstDistance } from '../measure.ts';

const strip = (x: number, y: number, chord: number) =>
  solveThreePinStrip({ x: 0, y: 0 }, { x: x * chord, y: y * chord }, { x: chord, y: 0 });

describe('the fit of a strip', () => {
  test.each([1, 1e-1, 1e-2, FIT_MM, 1e-4])(
    'keeps its promise of %f mm, measured on the result',
    (tolerance) => {
      const exact = strip(0.3, 0.25, 860);
      const path = fitPath(exact, tolerance);
      expect(worstDistance(spread(path, 12), exact)).toBeLessThanOrEqual(tolerance);
      expect(worstDistance(spread(exact, 60), path)).toBeLessThanOrEqual(tolerance);
      expect(largestGap(path)).toBeLessThan(1e-9);
    },
  );

  test('needs no more than eight cubics for a bench leg', () => {
    expect(fitPath(strip(0.35, 0.05, 860)).length).toBeLessThanOrEqual(8);
  });

  test('a straight strip is one cubic a span', () => {
    expect(fitPath(strip(0.5, 0, 500))).toHaveLength(2);
  });

  test('property: shallow or at the limit, small or 3 m long, it stays within FIT_MM', () => {
    const share = fc.double({ min: 0.08, max: 0.92, noNaN: true });
    const of = fc.double({ min: 0, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(share, of, fc.integer({ min: 20, max: 3000 }), (x, part, chord) => {
        const exact = strip(x, part * freeRiseLimit(x), chord);
        exact.forEach((piece) => {
          const places = spread(fitPath([piece]), 5);
          expect(worstDistance(places, [piece])).toBeLessThanOrEqual(FIT_MM);
        });
      }),
      { numRuns: 25 },
    );
  });
});

test('property: cubics for an arc stay within their tolerance of the circle', () => {
  const arcs = fc.record({
    radius: fc.double({ min: 0.5, max: 1e5, noNaN: true }),
    start: fc.double({ min: -6, max: 6, noNaN: true }),
    sweep: fc.double({ min: -6.2, max: 6.2, noNaN: true }).filter((sweep) => Math.abs(sweep) > 1e-3),
  });
  fc.assert(
    fc.property(arcs, fc.constantFrom(1e-1, 1e-3, FIT_MM / 10), ({ radius, start, sweep }, tolerance) => {
      const arc: ArcSegment = { type: 'arc', centre: { x: 3, y: -2 }, radius, start, sweep };
      const cubics = arcToCubics(arc, tolerance);
      fc.pre(cubics.length < 200);
      const rounding = 8 * Number.EPSILON * radius;
      for (const cubic of cubics)
        for (let i = 0; i <= 16; i++) {
          const p = paramCurve(cubic)(i / 16);
          expect(Math.abs(Math.hypot(p.x - 3, p.y + 2) - radius)).toBeLessThanOrEqual(tolerance + rounding);
        }
    }),
  );
});
