import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { derivative, paramCurve, pieceLength } from '../../../src/curves/geometry/evaluate.ts';
import type { EllipseSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { reversePiece } from '../../../src/curves/geometry/transform.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { integrate } from '../../../src/curves/numeric/gauss-legendre.ts';
import { arc } from '../../../src/curves/simple/arc.ts';
import { ellipse } from '../../../src/curves/simple/ellipse.ts';
import { type Draw, expectSameLineAnywhere, offsetAt, worstMiss } from '../shape-laws.ts';

const [A, B] = [point(0, 0), point(1000, 0)];
const halfOf = (rise: number): EllipseSegment => ellipse(A, B, rise).exact[0] as EllipseSegment;

/** The length by Gauss's rule on many short stretches: another way than the one under test. */
function measured(piece: EllipseSegment): number {
  const at = paramCurve(piece);
  const parts = 200;
  let total = 0;
  for (let i = 0; i < parts; i++) total += integrate((u) => at(u).speed, i / parts, (i + 1) / parts);
  return total;
}

describe('half an ellipse on its chord', () => {
  test('a rise of half the chord is the half circle', () => {
    const [round, half] = [arc(A, B, { rise: 500 }), ellipse(A, B, 500)];
    const [circle, oval] = [paramCurve(round.exact[0]!), paramCurve(half.exact[0]!)];
    for (const u of [0, 0.1, 0.25, 0.5, 0.9, 1]) {
      expect(oval(u).x).toBeCloseTo(circle(u).x, 9);
      expect(oval(u).y).toBeCloseTo(circle(u).y, 9);
      expect(oval(u).angle).toBeCloseTo(circle(u).angle, 12);
      expect(oval(u).curvature).toBeCloseTo(circle(u).curvature, 15);
    }
    expect(pieceLength(half.exact[0]!)).toBeCloseTo(500 * Math.PI, 9);
  });

  test('its offsets follow the equation of the ellipse', () => {
    // (x/a)² + (y/b)² = 1 from the middle of the chord: at 0.6 a the offset is 0.8 b
    const curve = ellipse(A, B, 150);
    expect(offsetAt(curve, 200)).toBeCloseTo(120, 9);
    expect(offsetAt(curve, 800)).toBeCloseTo(120, 9);
    expect(offsetAt(curve, 500)).toBeCloseTo(150, 9);
  });

  test('ellipse is square to the chord, with radii b²/a at the ends and a²/b at the crown', () => {
    const at = paramCurve(halfOf(200));
    expect(at(0).angle).toBeCloseTo(Math.PI / 2, 12);
    expect(at(1).angle).toBeCloseTo(-Math.PI / 2, 12);
    expect(1 / at(0).curvature).toBeCloseTo(-(200 ** 2) / 500, 9);
    expect(1 / at(0.5).curvature).toBeCloseTo(-(500 ** 2) / 200, 9);
    expect(figuresOf(ellipse(A, B, -200)).apex!.rise).toBeCloseTo(200, 9);
  });

  test('its length agrees with Gauss’s rule to 1e-12, flat or steep', () => {
    // a = 500, b = 250: 4aE(√3/2)/2 = 1211.05602756846 (E = 1.2110560275684594, Abramowitz & Stegun 17.2)
    expect(pieceLength(halfOf(250))).toBeCloseTo(1211.05602756846, 9);
    for (const rise of [5, 60, 250, 499, 501, 2000]) {
      const piece = halfOf(rise);
      expect(Math.abs(pieceLength(piece) / measured(piece) - 1)).toBeLessThan(1e-12);
    }
  });

  test('its tangent, speed and curvature are the derivatives of its places', () => {
    const [at, h] = [paramCurve(halfOf(-130)), 1e-6];
    for (const u of [0.01, 0.2, 0.5, 0.8]) {
      const [before, after] = [at(u - h), at(u + h)];
      const { x, y } = derivative(at(u));
      expect(x).toBeCloseTo((after.x - before.x) / (2 * h), 4);
      expect(y).toBeCloseTo((after.y - before.y) / (2 * h), 4);
      const turned = (after.angle - before.angle) / (2 * h);
      expect(at(u).curvature * at(u).speed).toBeCloseTo(turned, 5);
    }
  });
});

describe('an ellipse as drawn', () => {
  const setting = fc.record({
    from: fc.record({
      x: fc.double({ min: -2000, max: 2000, noNaN: true }),
      y: fc.double({ min: -500, max: 500, noNaN: true }),
    }),
    chord: fc.double({ min: 1, max: 5000, noNaN: true }),
    angle: fc.double({ min: -3, max: 3, noNaN: true }),
    share: fc.constant(0.5),
    rise: fc.double({ min: 1e-3, max: 3, noNaN: true }),
  });
  const draw: Draw = (from, to, bent) => {
    const chord = Math.hypot(to.x - from.x, to.y - from.y);
    const rise = ((to.x - from.x) * (bent.y - from.y) - (to.y - from.y) * (bent.x - from.x)) / chord;
    return ellipse(from, to, rise);
  };

  test('is the same line turned, scaled, mirrored and from the other end', () => {
    fc.assert(fc.property(setting, (s) => expectSameLineAnywhere(draw, s)));
  });

  test.each([1, 80, 250, 900])('keeps its path within the fit, %d mm high', (rise) => {
    const { exact, path } = ellipse(A, B, rise);
    expect(worstMiss(exact, path)).toBeLessThanOrEqual(FIT_MM);
  });

  test('read backwards twice it is itself', () => {
    expect(reversePiece(reversePiece(halfOf(120)))).toEqual(halfOf(120));
  });

  test('without a rise is the straight line, and nonsense is refused', () => {
    expect(ellipse(A, B, 0).exact).toEqual([{ type: 'line', from: A, to: B }]);
    expect(() => ellipse(A, A, 5)).toThrow(expect.objectContaining({ code: 'curve.same-point' }));
    expect(() => ellipse(A, B, Infinity)).toThrow(expect.objectContaining({ code: 'curve.not-finite' }));
  });
});
