import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { liesApart } from '../../../src/curves/compare/compare-kinds.ts';
import { HeightFunction } from '../../../src/curves/compare/height-over-chord.ts';
import { maxGap } from '../../../src/curves/compare/max-gap.ts';
import type { Curve } from '../../../src/curves/curve.ts';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { bow } from '../../../src/curves/elastica/bow.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import { arc } from '../../../src/curves/simple/arc.ts';
import { ellipse } from '../../../src/curves/simple/ellipse.ts';
import { line } from '../../../src/curves/simple/line.ts';
import { taperedBatten } from '../../../src/curves/tapered/tapered-batten.ts';
import cases from '../../fixtures/batten-cases.json' with { type: 'json' };
import { offsetAt } from '../shape-laws.ts';

const greatestGap = (one: Curve, other: Curve) => maxGap(new HeightFunction(one), new HeightFunction(other));

const [A, B] = [point(0, 0), point(1000, 0)];

describe('the same bend drawn by another kind', () => {
  test.each(cases.arcComparison)('the distance equals the reference: $id', ({ inputs, outputs }) => {
    const rise = inputs.rise_over_chord * 1000;
    const apart = liesApart(batten(A, B, { nail: point(500, rise) }));
    for (const [kind, theirs] of [
      ['arc', outputs.arc_minus_batten],
      ['bow', outputs.bow_minus_batten],
    ] as const) {
      const found = apart.find((other) => other.kind === kind)!;
      expect(Math.abs(found.worst / rise - theirs.max_abs_over_rise)).toBeLessThan(1e-8);
      expect(Math.abs(found.at.x / 1000 - theirs.at_x)).toBeLessThan(1e-8);
      expect(found.sameApex).toBe(true);
    }
  });

  test('a shallow arc is 2/27 of the rise off the batten, a sixth of the chord from the end', () => {
    // Parabola 4x(1 − x) against the loaded beam 3x − 4x³ (shares of rise and chord): x − 4x² + 4x³,
    // greatest where 1 − 8x + 12x² = 0, x = 1/6: 2/27.
    const gap = greatestGap(batten(A, B, { nail: point(500, 0.5) }), arc(A, B, { rise: 0.5 }))!;
    expect(gap.worst / 0.5).toBeCloseTo(2 / 27, 5);
    expect(gap.at.x / 1000).toBeCloseTo(1 / 6, 5);
  });

  test('the distance equals the difference of the offsets at its station', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.45, max: 0.55, noNaN: true }),
        fc.double({ min: 0.02, max: 0.3, noNaN: true }),
        (share, rise) => {
          const run = batten(A, B, { nail: point(1000 * share, 1000 * rise) });
          for (const other of [arc(A, B, { rise: 1000 * rise }), bow(A, B, 1000 * rise)]) {
            const { worst, at } = greatestGap(run, other)!;
            const gapAt = (x: number): number => Math.abs(offsetAt(run, x) - offsetAt(other, x));
            expect(gapAt(at.x)).toBeCloseTo(worst, 7);
            for (let x = 25; x < 1000; x += 25) expect(gapAt(x)).toBeLessThanOrEqual(worst * (1 + 1e-9));
          }
        },
      ),
      { numRuns: 20 },
    );
  });

  test('with the apex off the middle, arc and bow report another apex', () => {
    const apart = liesApart(batten(A, B, { nail: point(300, 100) }));
    expect(apart.map(({ kind, sameApex }) => [kind, sameApex])).toEqual([
      ['arc', false],
      ['bow', false],
      ['spline', true],
    ]);
  });

  test('a spline with the apex of a shallow batten equals the batten', () => {
    const apart = liesApart(batten(A, B, { nail: point(300, 5) }));
    expect(apart.find(({ kind }) => kind === 'spline')).toBeOneOf([
      undefined,
      expect.objectContaining({ worst: expect.closeTo(0, 2) }),
    ]);
  });

  test('a kind is not compared with itself, but a tapered strip is with the uniform one', () => {
    const kinds = (curve: Parameters<typeof liesApart>[0]): string[] =>
      liesApart(curve).map(({ kind }) => kind);
    expect(kinds(arc(A, B, { rise: 100 }))).toEqual(['batten', 'bow', 'spline']);
    expect(kinds(bow(A, B, -100))).toEqual(['arc', 'batten', 'spline']);
    expect(kinds(ellipse(A, B, 100))).toEqual(['arc', 'batten', 'bow', 'spline']);
    const tapered = taperedBatten(A, B, { nail: point(500, 100) }, { from: 6, to: 3 });
    expect(kinds(tapered)).toContain('batten');
  });

  test('a batten that is too high is left out; a line has no comparison', () => {
    expect(liesApart(bow(A, B, 900)).map(({ kind }) => kind)).not.toContain('batten');
    expect(liesApart(line(A, B))).toEqual([]);
  });

  test('turning and turning over the part changes no distance', () => {
    const [from, to, nail] = [point(10, 20), point(10, 1020), point(110, 420)];
    const [upright, lying] = [
      liesApart(batten(from, to, { nail })),
      liesApart(batten(A, B, { nail: point(400, 100) })),
    ];
    lying.forEach(({ kind, worst }, i) => {
      expect(upright[i]!.kind).toBe(kind);
      expect(upright[i]!.worst).toBeCloseTo(worst, 8);
    });
  });
});
