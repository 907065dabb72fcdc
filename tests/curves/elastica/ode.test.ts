import fc from 'fast-check';
import odex from 'odex';
import { describe, expect, test } from 'vitest';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { bow } from '../../../src/curves/elastica/bow.ts';
import { freeRiseLimit } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { paramCurve, pieceLength } from '../../../src/curves/geometry/evaluate.ts';
import type { ElasticaSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import { taperedStates } from '../../../src/curves/geometry/pieces/tapered-series.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { taperedBatten } from '../../../src/curves/tapered/tapered-batten.ts';

/** What the independent integrator is asked for, and so what the comparison can promise. */
const ASKED = 1e-12;
const AGREES = 1e-9;

/** Integrates x′ = cos θ, y′ = sin θ, θ′ = κ and a law for the rest, by an independent program. */
function integrate(start: readonly number[], law: (y: readonly number[]) => number[], length: number): Point {
  const solver = new odex.Solver(start.length);
  solver.absoluteTolerance = ASKED;
  solver.relativeTolerance = ASKED;
  const { y } = solver.solve((_, state) => law(state), 0, start, length);
  return { x: y[0]!, y: y[1]! };
}

/** Where a stretch of strip of thrust λ ends by its own law, κ″ + κ³/2 + λκ = 0. */
const endOf = ({ from, angle, curvature, curvatureRate, thrust = 0, length }: ElasticaSegment): Point =>
  integrate(
    [from.x, from.y, angle, curvature, curvatureRate],
    ([, , theta, k, rate]) => [Math.cos(theta!), Math.sin(theta!), k!, rate!, -(k! ** 3) / 2 - thrust * k!],
    length,
  );

const A = { x: 0, y: 0 };
const B = { x: 1, y: 0 };

describe('an independent integrator of the strip’s own equation', () => {
  test('property: reaches every pin of a batten from the state at the one before', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.15, max: 0.85, noNaN: true }),
        fc.double({ min: 0.01, max: 0.7, noNaN: true }),
        fc.constantFrom('free', 'held'),
        (x, of, kept) => {
          const end = kept === 'free' ? 'free' : ({ held: 0 } as const);
          const nail = { x, y: of * 0.4 * freeRiseLimit(x) };
          const { exact, pins } = batten(A, B, { nail }, { start: end, end: 'free' });
          exact.forEach((piece, i) => {
            expect(distance(endOf(piece as ElasticaSegment), pins[i + 1]!)).toBeLessThan(AGREES);
          });
        },
      ),
      { numRuns: 30 },
    );
  });

  test('agrees along five nails, and along a bow', () => {
    const through = [0.15, 0.35, 0.5, 0.7, 0.9].map((x, i) => ({
      x,
      y: 0.1 * Math.sin(3 * x) + 0.01 * (i % 2),
    }));
    for (const { exact, to } of [batten(A, B, { through }), bow(A, B, 0.6)]) {
      exact.forEach((piece) => {
        const at = paramCurve(piece);
        expect(distance(endOf(piece as ElasticaSegment), at(1))).toBeLessThan(AGREES);
      });
      expect(distance(paramCurve(exact.at(-1)!)(1), to)).toBeLessThan(AGREES);
    }
  });

  test('agrees along a tapered strip: M′ = force across the strip, κ = M/t³', () => {
    const { exact } = taperedBatten(A, B, { nail: { x: 0.4, y: 0.15 } }, { from: 1, to: 0.5 });
    for (const piece of exact) {
      if (piece.type !== 'tapered') throw new Error('a tapered strip has tapered pieces');
      const { thickness, length, force, from, angle, moment } = piece;
      const [thick, thin] = thickness;
      const end = integrate(
        [from.x, from.y, angle, moment, 0],
        ([, , theta, m, s]) => {
          const t = thick + ((thin - thick) * s!) / length;
          const across = force.y * Math.cos(theta!) - force.x * Math.sin(theta!);
          return [Math.cos(theta!), Math.sin(theta!), m! / t ** 3, across, 1];
        },
        pieceLength(piece),
      );
      expect(distance(end, paramCurve(piece)(1))).toBeLessThan(AGREES);
      expect(taperedStates(piece)(1).thickness).toBeCloseTo(thin, 12);
    }
  });
});
