import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { bow } from '../../../src/curves/elastica/bow.ts';
import { GAUSS_CONSTANT } from '../../../src/curves/elastica/rectangular-elastica.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { ElasticaSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { reversePiece } from '../../../src/curves/geometry/transform.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { ellipticIntegrals } from '../../../src/curves/numeric/elliptic-integrals.ts';
import { rootBetween } from '../../../src/curves/numeric/roots-and-minima.ts';
import cases from '../../fixtures/batten-cases.json' with { type: 'json' };
import { type Draw, expectSameLineAnywhere, offsetAt, PROMISE, worstMiss } from '../shape-laws.ts';

const [A, B] = [point(0, 0), point(1000, 0)];
const stripOf = (rise: number): ElasticaSegment => bow(A, B, rise).exact[0] as ElasticaSegment;

describe('a strip whose ends a string draws together', () => {
  // Computed to 34 digits by elliptic integrals, cross-checked by direct energy minimisation.
  test.each(cases.bow)('takes the reference shape: $id', ({ inputs, outputs }) => {
    const curve = bow(A, B, inputs.rise * 1000);
    const figures = figuresOf(curve);
    outputs.stations.forEach((x, i) => {
      expect(Math.abs(offsetAt(curve, x * 1000) - outputs.offsets_y[i]! * 1000)).toBeLessThan(PROMISE * 1000);
    });
    expect(figures.length / 1000).toBeCloseTo(outputs.L, 12);
    expect(figures.endAngles[0]).toBeCloseTo(outputs.end_angle, 12);
    expect(figures.endAngles[1]).toBeCloseTo(-outputs.end_angle, 12);
    expect(1000 / figures.tightest!.radius).toBeCloseTo(outputs.kappa_max, 12);
    expect(figures.apex!.at.x).toBeCloseTo(500, 8);
    expect(figures.apex!.rise).toBeCloseTo(inputs.rise * 1000, 8);
  });

  test('bow with a rise of Gauss’s constant is square to its string, as the free batten is', () => {
    const curve = bow(A, B, GAUSS_CONSTANT * 1000);
    expect(figuresOf(curve).endAngles[0]).toBeCloseTo(Math.PI / 2, 12);
    const nearly = GAUSS_CONSTANT * 1000 * (1 - 1e-6);
    const nailed = batten(A, B, { nail: point(500, nearly) });
    expect(offsetAt(nailed, 100)).toBeCloseTo(offsetAt(bow(A, B, nearly), 100), 2);
  });

  test('is a half wave of a sine while it is shallow', () => {
    const curve = bow(A, B, 0.1);
    for (const x of [100, 250, 400])
      expect(offsetAt(curve, x) / 0.1).toBeCloseTo(Math.sin((Math.PI * x) / 1000), 6);
  });
});

/*
 * Post-buckling of a column fixed below and free above (Timoshenko & Gere, "Theory of Elastic
 * Stability", 2nd ed., §2.7), quoted from memory: slope of the tip in degrees, load over Euler's load,
 * height and drift of the tip over the length. A bow is two such columns. The old figures are rounded
 * by hand: those named in ROUGH miss the exact value by more than half their last digit.
 */
const POST_BUCKLING: readonly (readonly [slope: number, load: number, x: number, y: number])[] = [
  [20, 1.015, 0.97, 0.22],
  [40, 1.063, 0.881, 0.422],
  [60, 1.152, 0.741, 0.593],
  [80, 1.293, 0.56, 0.719],
  [100, 1.518, 0.349, 0.792],
  [120, 1.884, 0.123, 0.803],
  [140, 2.541, -0.107, 0.75],
  [160, 4.029, -0.34, 0.625],
  [176, 9.116, -0.577, 0.421],
];
const HALF_DIGIT = 0.5e-3;
const HAND_TABLE = 1.4e-3;
const ROUGH = new Set(['20 y', '40 load', '80 load', '80 x', '120 load', '140 load', '160 load']);

const expectAsPrinted = (slope: number, column: string, value: number, printed: number): void => {
  const tolerance = ROUGH.has(`${slope} ${column}`) ? HAND_TABLE : HALF_DIGIT;
  expect(Math.abs(value - printed), `${slope} ${column}`).toBeLessThanOrEqual(tolerance);
};

describe('the published table of the bent column', () => {
  test.each(POST_BUCKLING)('a slope of %d° carries %f of Euler’s load', (slope, load, x, y) => {
    const k = Math.sin((slope * Math.PI) / 360);
    const { K, E } = ellipticIntegrals(Math.cos((slope * Math.PI) / 360));
    expectAsPrinted(slope, 'load', ((2 * K) / Math.PI) ** 2, load);
    expectAsPrinted(slope, 'x', (2 * E) / K - 1, x);
    expectAsPrinted(slope, 'y', (2 * k) / K, y);
  });

  test.each(POST_BUCKLING.filter(([, , x]) => x > 0))(
    'the bow whose ends lean %d° is two of those columns',
    (slope, load, x, y) => {
      const lean = (slope * Math.PI) / 180;
      const rise = rootBetween((h) => stripOf(h).angle - lean, 1, 9000)!;
      const { length, curvatureRate, thrust } = stripOf(rise);
      const pull = Math.hypot(curvatureRate, thrust!);
      expectAsPrinted(slope, 'load', pull / (Math.PI / length) ** 2, load);
      expectAsPrinted(slope, 'x', 1000 / length, x);
      expectAsPrinted(slope, 'y', (2 * rise) / length, y);
    },
  );
});

describe('a bow as drawn', () => {
  const setting = fc.record({
    from: fc.record({
      x: fc.double({ min: -2000, max: 2000, noNaN: true }),
      y: fc.double({ min: -500, max: 500, noNaN: true }),
    }),
    chord: fc.double({ min: 1, max: 5000, noNaN: true }),
    angle: fc.double({ min: -3, max: 3, noNaN: true }),
    share: fc.constant(0.5),
    rise: fc.double({ min: 1e-3, max: 5, noNaN: true }),
  });
  const draw: Draw = (from, to, bent) => {
    const chord = Math.hypot(to.x - from.x, to.y - from.y);
    return bow(from, to, ((to.x - from.x) * (bent.y - from.y) - (to.y - from.y) * (bent.x - from.x)) / chord);
  };

  test('is the same line turned, scaled, mirrored and from the other end', () => {
    fc.assert(fc.property(setting, (s) => expectSameLineAnywhere(draw, s)));
  });

  test('bow has the given ends and rise', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-2, max: 90_000, noNaN: true }), (rise) => {
        const at = paramCurve(stripOf(rise));
        expect(Math.hypot(at(1).x - 1000, at(1).y)).toBeLessThan(PROMISE * 1000);
        expect(Math.hypot(at(0.5).x - 500, at(0.5).y - rise)).toBeLessThan(PROMISE * Math.max(rise, 1000));
      }),
    );
  });

  test('read backwards twice it is itself', () => {
    const strip = stripOf(400);
    const again = paramCurve(reversePiece(reversePiece(strip)));
    for (const u of [0, 0.3, 1]) expect(again(u).y).toBeCloseTo(paramCurve(strip)(u).y, 9);
  });

  test.each([2, 100, 700, 1500])('keeps its path within the fit, %d mm high', (rise) => {
    const { exact, path } = bow(A, B, rise);
    expect(worstMiss(exact, path)).toBeLessThanOrEqual(FIT_MM);
  });

  test('without a rise is the straight line', () => {
    expect(bow(A, B, 0).exact).toEqual([{ type: 'line', from: A, to: B }]);
  });

  test('whose ends all but touch is refused', () => {
    expect(() => bow(A, B, -150_000)).toThrow(expect.objectContaining({ code: 'bow.ends-touch' }));
    expect(() => bow(A, A, 10)).toThrow(expect.objectContaining({ code: 'curve.same-point' }));
    expect(() => bow(A, B, Number.NaN)).toThrow(expect.objectContaining({ code: 'curve.not-finite' }));
  });
});
