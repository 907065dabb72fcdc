import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fairCurve, mergeStations, smoothingSpline } from '../../../src/check/fit/smoothing-spline.ts';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { solveSymmetric } from '../../../src/curves/numeric/linear-algebra.ts';
import { spline } from '../../../src/curves/simple/spline.ts';
import { normal, seeded } from '../bench.ts';

const data = (ys: readonly number[], sigma = 1) =>
  mergeStations(
    ys.map((y, i) => ({ x: 100 * i, y })),
    sigma,
  );

describe('smoothingSpline at weight 0', () => {
  test('the spline passes through every point and leaves no degree of freedom', () => {
    const { points, misfit, degreesOfFreedom } = smoothingSpline(data([0, 8, 3, 9, 1], 0.5), 0);
    expect(points.map(({ y }) => y)).toEqual([0, 8, 3, 9, 1]);
    expect([misfit, degreesOfFreedom]).toEqual([0, 0]);
  });

  test('a negligible weight gives the natural spline, 11/16 at the quarter point', () => {
    // A simply supported beam with a load in the middle: y/δ = (3xL² − 4x³)/L³, 11/16 at x = L/4.
    // A point of no weight at the quarter (a standard error beyond measure) is put there by the spline alone.
    const points = [0, 50, 100, 150, 200].map((x) => ({ x, y: x === 100 ? 10 : x % 100 === 0 ? 0 : -77 }));
    const sigmas = points.map(({ x }) => (x % 100 === 0 ? 1e-3 : 1e6));
    const { points: fair } = smoothingSpline({ points, sigmas }, 1);
    expect(fair[1]!.y).toBeCloseTo((11 / 16) * 10, 5);
    const drafted = paramCurve(spline([points[0]!, points[2]!, points[4]!], 'natural', 'natural').exact[0]!);
    expect(fair[1]!.y).toBeCloseTo(drafted(0.5).y, 5);
  });
});

/** The same minimum from its definition, with whole matrices: (Σ⁻² + weight·QR⁻¹Qᵀ)g = Σ⁻²y. */
function byDefinition(
  xs: readonly number[],
  ys: readonly number[],
  sigmas: readonly number[],
  weight: number,
) {
  const n = xs.length;
  const gap = (i: number): number => xs[i + 1]! - xs[i]!;
  const columns = Array.from({ length: n - 2 }, (_, j) =>
    xs.map((_, i) =>
      i === j ? 1 / gap(j) : i === j + 1 ? -1 / gap(j) - 1 / gap(j + 1) : i === j + 2 ? 1 / gap(j + 1) : 0,
    ),
  );
  const R = columns.map((_, j) =>
    columns.map((_, k) =>
      j === k ? (gap(j) + gap(j + 1)) / 3 : Math.abs(j - k) === 1 ? gap(Math.max(j, k)) / 6 : 0,
    ),
  );
  const energy = xs.map((_, i) => {
    const solved = solveSymmetric(
      R,
      columns.map((column) => column[i]!),
    )!;
    return xs.map((_, k) => columns.reduce((sum, column, j) => sum + column[k]! * solved[j]!, 0));
  });
  const system = energy.map((row, i) =>
    row.map((value, k) => weight * value + (i === k ? 1 / sigmas[i]! ** 2 : 0)),
  );
  return {
    values: solveSymmetric(
      system,
      ys.map((y, i) => y / sigmas[i]! ** 2),
    )!,
    hat: xs.map(
      (_, i) =>
        solveSymmetric(
          system,
          xs.map((_, k) => (k === i ? 1 / sigmas[i]! ** 2 : 0)),
        )![i]!,
    ),
  };
}

test('values and degrees of freedom follow the definition on uneven stations and errors', () => {
  const xs = [0, 30, 100, 140, 260, 300, 390, 500];
  const ys = [0, 4, 9, 12, 17, 14, 9, 1];
  const sigmas = [0.3, 0.3, 0.5, 0.2, 0.3, 0.4, 0.3, 0.3];
  for (const weight of [1e2, 1e5, 1e8]) {
    const found = smoothingSpline({ points: xs.map((x, i) => ({ x, y: ys[i]! })), sigmas }, weight);
    const { values, hat } = byDefinition(xs, ys, sigmas, weight);
    values.forEach((value, i) => {
      expect(found.points[i]!.y).toBeCloseTo(value, 8);
    });
    expect(found.degreesOfFreedom).toBeCloseTo(xs.length - hat.reduce((sum, h) => sum + h, 0), 8);
  }
});

describe('fairCurve', () => {
  test('the fair curve has a misfit equal to its degrees of freedom', () => {
    const random = seeded(3);
    const noisy = Array.from({ length: 30 }, (_, i) => 40 * Math.sin(i / 8) + 0.3 * normal(random));
    const { misfit, degreesOfFreedom } = fairCurve(data(noisy, 0.3));
    expect(misfit).toBeCloseTo(degreesOfFreedom, 5);
  });

  test('the fair curve of a straight edge is straight', () => {
    const random = seeded(5);
    const noisy = Array.from({ length: 20 }, (_, i) => i / 2 + 0.1 * normal(random));
    const { points } = fairCurve(data(noisy, 0.2));
    points.slice(1, -1).forEach(({ y }, i) => {
      expect(Math.abs(points[i]!.y - 2 * y + points[i + 2]!.y)).toBeLessThan(1e-3);
    });
  });

  test('the fair curve is within the error of a reading of the truth for at least 95 of 100 seeds', () => {
    let back = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const random = seeded(seed);
      const truth = (i: number): number => 30 * Math.sin((Math.PI * i) / 20) + i / 3;
      const ys = Array.from({ length: 21 }, (_, i) => truth(i) + 0.34 * normal(random));
      const { points } = fairCurve(data(ys, 0.34));
      const off = points.map(({ y }, i) => ((y - truth(i)) / 0.34) ** 2);
      if (Math.sqrt(off.reduce((sum, each) => sum + each, 0) / off.length) <= 1) back++;
    }
    expect(back).toBeGreaterThanOrEqual(95);
  });

  test('property: tilted and raised readings give a tilted and raised curve', () => {
    const number = fc.double({ min: -50, max: 50, noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(fc.array(number, { minLength: 4, maxLength: 20 }), number, number, (ys, raise, tilt) => {
        const moved = ys.map((y, i) => y + raise + (tilt * i) / 10);
        const [a, b] = [smoothingSpline(data(ys), 1e5), smoothingSpline(data(moved), 1e5)];
        a.points.forEach(({ y }, i) => {
          expect(b.points[i]!.y).toBeCloseTo(y + raise + (tilt * i) / 10, 8);
        });
      }),
    );
  });
});

test('mergeStations replaces the points of one station by their mean and its error', () => {
  const { points, sigmas } = mergeStations(
    [
      { x: 10, y: 2 },
      { x: 0, y: 1 },
      { x: 10, y: 4 },
    ],
    0.5,
  );
  expect(points).toEqual([
    { x: 0, y: 1 },
    { x: 10, y: 3 },
  ]);
  expect(sigmas[1]).toBeCloseTo(0.5 / Math.SQRT2, 12);
});
