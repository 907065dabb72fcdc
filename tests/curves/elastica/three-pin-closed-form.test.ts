import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { GAUSS_CONSTANT } from '../../../src/curves/elastica/rectangular-elastica.ts';
import { freeRiseLimit, solveThreePinStrip } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { evaluate, paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { apexOf } from '../../../src/curves/measurements.ts';
import { rootsOn } from '../../../src/curves/numeric/roots-and-minima.ts';
import { pinsOf, reference } from '../reference.ts';

/** The promise: points to 1e-9 of the chord, which is 1 in the reference. */
const PROMISE = 1e-9;

const A = { x: 0, y: 0 };
const B = { x: 1, y: 0 };
const strip = (x: number, y: number) => solveThreePinStrip(A, { x, y }, B);

describe('the free strip against the reference shapes', () => {
  test.each(reference.free3pin)('$id: tangents, curvature and lengths', (one) => {
    const [a, nail, b] = pinsOf(one) as [Point, Point, Point];
    const [first, second] = solveThreePinStrip(a, nail, b);
    const { theta_at_pins, kappa_at_pins, L_spans } = one.outputs;
    const ends = [evaluate(first, 0), evaluate(second, 0), evaluate(second, 1)];
    ends.forEach((end, i) => {
      expect(Math.abs(end.angle - theta_at_pins[i]!)).toBeLessThan(PROMISE);
      expect(Math.abs(end.curvature - kappa_at_pins[i]!)).toBeLessThan(PROMISE);
    });
    expect(Math.abs(first.length - L_spans[0]!)).toBeLessThan(PROMISE);
    expect(Math.abs(second.length - L_spans[1]!)).toBeLessThan(PROMISE);
    expect(distance(ends[2]!, b)).toBeLessThan(PROMISE);
  });

  test.each(reference.free3pin)('$id: offsets at nine stations, and the apex', (one) => {
    const [a, nail, b] = pinsOf(one) as [Point, Point, Point];
    const pieces = solveThreePinStrip(a, nail, b);
    one.outputs.station_x.forEach((station, i) => {
      const at = paramCurve(station <= nail.x ? pieces[0] : pieces[1]);
      const places = [...rootsOn((u) => at(u).x - station, 24), 1].map(at);
      const off = Math.min(
        ...places.map((p) => Math.abs(p.y - one.outputs.offsets_y[i]!) * Math.abs(Math.cos(p.angle))),
      );
      expect(off).toBeLessThan(PROMISE);
    });
    const apex = apexOf(pieces, a, b);
    expect(Math.abs(apex!.rise - one.outputs.apex.y)).toBeLessThan(PROMISE);
    // The apex lies where the strip runs level, so that its station is known to √ of the offset's error.
    expect(Math.abs(apex!.at.x - one.outputs.apex.x)).toBeLessThan(PROMISE);
  });
});

describe('the free strip against the handbooks', () => {
  test.each([0.5, 0.6, 0.7, 0.75, 0.9])(
    'bent little over a nail at %f it is a simple beam with a point load',
    (a) => {
      // AISC Steel Construction Manual, Table 3-23, case 8: greatest deflection at √(a(a + 2b)/3) from the end
      // of the longer segment a; y there over y at the load = √(…)³·… as below.
      const b = 1 - a;
      const x = Math.sqrt((a * (a + 2 * b)) / 3);
      const ratio = (x * (1 - b * b - x * x)) / (2 * a * a * b);
      const nail = 1e-5;
      const apex = apexOf(solveThreePinStrip(A, { x: a * 1e6, y: nail * 1e6 }, { x: 1e6, y: 0 }), A, {
        x: 1e6,
        y: 0,
      })!;
      expect(apex.at.x / 1e6).toBeCloseTo(x, 7);
      expect(apex.rise / 1e6 / nail).toBeCloseTo(ratio, 7);
    },
  );

  test("its greatest centred rise is Gauss's constant of the chord", () => {
    // 1/agm(1, √2) = 0.8346268416740732 (Horn 1983, "The Curve of Least Energy", ACM TOMS 9, 441–460)
    let [a, g] = [1, Math.SQRT2];
    for (let i = 0; i < 6; i++) [a, g] = [(a + g) / 2, Math.sqrt(a * g)];
    expect(1 / a).toBeCloseTo(0.8346268416740732, 15);
    expect(GAUSS_CONSTANT).toBeCloseTo(1 / a, 14);
    expect(freeRiseLimit(0.5)).toBeCloseTo(1 / a, 14);
  });

  test.each(
    reference.existenceLimits.free.filter(({ limit_kind }) => limit_kind.startsWith('nail reaction')),
  )('the nail at $x_over_c holds up to $limit_h_over_c', ({ x_over_c, limit_h_over_c }) => {
    expect(freeRiseLimit(x_over_c)).toBeCloseTo(limit_h_over_c, 9);
  });

  test.each(reference.existenceLimits.free.filter(({ limit_kind }) => limit_kind.startsWith('fold')))(
    'near an end, at $x_over_c, the stated limit is on the safe side of the snap at $limit_h_over_c',
    ({ x_over_c, limit_h_over_c }) => {
      expect(freeRiseLimit(x_over_c)).toBeLessThanOrEqual(limit_h_over_c);
      expect(freeRiseLimit(x_over_c)).toBeGreaterThan(0.99 * limit_h_over_c);
    },
  );

  test('to the limit it is found, beyond it refused with the figure', () => {
    expect(() => strip(0.3, 0.7841)).not.toThrow(); // limit .784182
    expect(() => strip(0.3, 0.7843)).toThrow(expect.objectContaining({ code: 'batten.too-high' }));
    expect(() => strip(0.3, 0.7843)).toThrow(/0\.784 mm/);
  });
});

const share = fc.double({ min: 0.07, max: 0.93, noNaN: true });
const part = fc.double({ min: 1e-6, max: 0.97, noNaN: true });

describe('properties of the free strip', () => {
  test('it passes its pins, meets itself smoothly at the nail and has no moment at its ends', () => {
    fc.assert(
      fc.property(share, part, (x, of) => {
        const nail = { x, y: of * freeRiseLimit(x) };
        const [first, second] = solveThreePinStrip(A, nail, B);
        const [before, after, end] = [evaluate(first, 1), evaluate(second, 0), evaluate(second, 1)];
        expect(distance(before, nail)).toBeLessThan(PROMISE);
        expect(distance(end, B)).toBeLessThan(PROMISE);
        expect(Math.abs(before.angle - after.angle)).toBeLessThan(PROMISE);
        expect(Math.abs(before.curvature - after.curvature)).toBeLessThan(PROMISE);
        expect(Math.abs(end.curvature)).toBeLessThan(PROMISE);
      }),
    );
  });

  test('mirrored, reversed, turned and scaled pins give the mirrored, reversed, turned and scaled strip', () => {
    fc.assert(
      fc.property(share, part, fc.double({ min: -3, max: 3, noNaN: true }), (x, of, turn) => {
        const y = of * freeRiseLimit(x);
        const [first] = strip(x, y);
        const [below] = strip(x, -y);
        expect(below.angle).toBeCloseTo(-first.angle, 12);
        const [, reversed] = solveThreePinStrip(A, { x: 1 - x, y }, B);
        expect(evaluate(reversed, 1).angle).toBeCloseTo(-first.angle, 9);
        const map = (p: Point): Point => ({
          x: 250 * (p.x * Math.cos(turn) - p.y * Math.sin(turn)),
          y: 250 * (p.x * Math.sin(turn) + p.y * Math.cos(turn)),
        });
        const [moved] = solveThreePinStrip(map(A), map({ x, y }), map(B));
        expect(Math.cos(moved.angle - first.angle - turn)).toBeCloseTo(1, 12);
        expect(moved.length / 250).toBeCloseTo(first.length, 9);
      }),
    );
  });

  test('a nail outside the ends is refused', () => {
    for (const x of [-0.1, 0, 1, 1.2])
      expect(() => strip(x, 0.1)).toThrow(expect.objectContaining({ code: 'batten.out-of-order' }));
  });
});
