import fc from 'fast-check';
import { expect, test } from 'vitest';
import { elasticaS, elasticaX, elasticaY } from '../../../src/curves/elastica/rectangular-elastica.ts';
import { integrateSpan, newSpanEnd } from '../../../src/curves/elastica/shooting.ts';
import { elasticaStates } from '../../../src/curves/geometry/pieces/elastica-series.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const start = fc.record({
  angle: number(-2, 2),
  curvature: number(-4, 4),
  rate: number(-12, 12),
  length: number(0.2, 2),
});

test.each([0.1, 1, Math.PI / 2, 2.5])('from a free end to a turn of %f a span is one lobe', (turn) => {
  // A force of 1 along x, the strip leaving square to it: see the lobe's integrals.
  const end = newSpanEnd();
  integrateSpan(end, Math.PI / 2, 0, -1, elasticaS(turn) / Math.sqrt(2));
  expect(end.angle).toBeCloseTo(Math.PI / 2 - turn, 12);
  expect(end.x).toBeCloseTo(elasticaY(turn) / Math.sqrt(2), 12);
  expect(end.y).toBeCloseTo(elasticaX(turn) / Math.sqrt(2), 12);
});

test('property: a span ends where the exact piece does', () => {
  fc.assert(
    fc.property(start, ({ angle, curvature, rate, length }) => {
      const end = newSpanEnd();
      integrateSpan(end, angle, curvature, rate, length);
      const from = { x: 0, y: 0 };
      const piece = elasticaStates({ type: 'elastica', from, angle, curvature, curvatureRate: rate, length });
      const known = piece(length);
      for (const key of ['x', 'y', 'angle', 'curvature'] as const)
        expect(Math.abs(end[key] - known[key])).toBeLessThan(1e-11);
      expect(Math.abs(end.rate - known.rate)).toBeLessThan(1e-10);
    }),
  );
});

test('property: its variations are the differences of neighbouring spans', () => {
  // Central differences of step 1e-5 are good to 1e-8 here; the variations to 3e-8 of a step's own size.
  const [h, NEAR] = [1e-5, 1e-5];
  fc.assert(
    fc.property(start, ({ angle, curvature, rate, length }) => {
      const [end, less, more] = [newSpanEnd(), newSpanEnd(), newSpanEnd()];
      integrateSpan(end, angle, curvature, rate, length);
      for (const [by, dk, dq] of [
        [end.byCurvature, h, 0],
        [end.byRate, 0, h],
      ] as const) {
        integrateSpan(less, angle, curvature - dk, rate - dq, length);
        integrateSpan(more, angle, curvature + dk, rate + dq, length);
        for (const key of ['x', 'y', 'angle', 'curvature', 'rate'] as const)
          expect(Math.abs(by[key] - (more[key] - less[key]) / (2 * h))).toBeLessThan(
            NEAR * (1 + Math.abs(by[key])),
          );
      }
    }),
  );
});
