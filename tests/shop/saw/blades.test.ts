import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { edgesAsCut } from '../../../src/part/outline/outline.ts';
import type { Part } from '../../../src/part/part.ts';
import { adviseBlade, everyBladeTurns, kerfRadius } from '../../../src/shop/saw/blade-advice.ts';
import { BLADES, kerfLimitedRadius, minBladeRadius, widestBlade } from '../../../src/shop/saw/blades.ts';
import { partOf } from '../../part/jobs.ts';

const INCH = 25.4;
const part = (edges: string, more = '') => partOf(`part: Rail\nunits: in\n${more}edges:\n${edges}`);
/** The one hollow and the one round of a part with no more of either. */
const theOnly = (of: Part) => {
  const { hollows, rounds, ...advice } = adviseBlade(of, edgesAsCut(of), {});
  expect([hollows.length, rounds.length].every((count) => count < 2)).toBe(true);
  return { ...advice, hollow: hollows[0], round: rounds[0] };
};

describe('the blade chart', () => {
  // Common practice: band-saw manuals and a chart on the web; the largest figure of each row (inches).
  test.each([
    [1 / 8, 1 / 4],
    [3 / 16, 3 / 8],
    [1 / 4, 5 / 8],
    [3 / 8, 1.5],
    [1 / 2, 2.5],
    [5 / 8, 4],
    [3 / 4, 5.5],
    [1, 7.625],
    [1.25, 9.875],
  ])('a %f in blade needs a radius of %f in', (width, radius) => {
    expect(minBladeRadius(width * INCH)).toBeCloseTo(radius * INCH, 9);
    expect(widestBlade(radius * INCH)?.width).toBeCloseTo(width * INCH, 9);
    expect(widestBlade(radius * INCH - 0.01)?.width ?? 0).toBeLessThan(width * INCH);
  });

  test('a width between two rows needs a radius between theirs', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 31.75, noNaN: true }), (width) => {
        const radius = minBladeRadius(width);
        for (const row of BLADES)
          if (row.width <= width) expect(radius).toBeGreaterThanOrEqual(row.radius - 1e-9);
          else expect(radius).toBeLessThanOrEqual(row.radius + 1e-9);
      }),
    );
  });

  test('a blade sold as 32 mm counts as 1 1/4 in, and a wider one is refused', () => {
    expect(minBladeRadius(32)).toBeGreaterThan(9.875 * INCH);
    expect(() => minBladeRadius(33)).toThrow(expect.objectContaining({ code: 'saw.blade-width' }));
  });
});

describe('the kerf of a blade', () => {
  test('kerfLimitedRadius lets the band just fit between two circles a kerf apart', () => {
    // By Pythagoras: the band's middle on the inner circle, its back corners on the outer one.
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 25, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        fc.double({ min: 0.2, max: 1, noNaN: true }),
        (width, bladeThickness, play) => {
          const radius = kerfLimitedRadius(width, { kerf: bladeThickness + play, bladeThickness });
          const [inner, outer] = [radius - (bladeThickness + play) / 2, radius + (bladeThickness + play) / 2];
          // Exact: w²/4 = outer² − (inner + gauge)²; the rule drops gauge/2 beside the radius, on the safe side.
          expect(Math.hypot(width / 2, inner + bladeThickness)).toBeLessThanOrEqual(outer + 1e-9);
        },
      ),
    );
  });

  test('a worn set needs more than the chart, and a wide set no less', () => {
    expect(minBladeRadius(12.7, { kerf: 0.8, bladeThickness: 0.635 })).toBeCloseTo(
      12.7 ** 2 / (8 * 0.165),
      9,
    );
    expect(minBladeRadius(12.7, { kerf: 1.4, bladeThickness: 0.635 })).toBeCloseTo(63.5, 9);
  });

  test('kerfRadius is half a kerf less for a hollow and half a kerf more for a round', () => {
    const at = { x: 0, y: 0 };
    expect(kerfRadius({ kind: 'hollow', radius: 50, at, edge: 'a' }, 1)).toBe(49.5);
    expect(kerfRadius({ kind: 'round', radius: 50, at, edge: 'a' }, 1)).toBe(50.5);
  });
});

// Two arcs of 6 in chord: radius 6²/(8·rise) + rise/2; the lower hollow, the upper round.
const ARCH = `
  lower:
    - from: [0, 0]
    - arc: [6, 0]
      rise: 1
  upper:
    - from: [0, 3]
    - arc: [6, 3]
      rise: 1 1/2
`;

describe('adviseBlade by bend', () => {
  test('an arch has its hollow on the lower edge and its round on the upper', () => {
    const { hollow, round } = theOnly(part(ARCH));
    expect(hollow).toMatchObject({ radius: expect.closeTo(5 * INCH, 6), edge: 'lower' });
    expect(round).toMatchObject({ radius: expect.closeTo(3.75 * INCH, 6), edge: 'upper' });
  });

  test('the saw line makes a hollow tighter by the allowance and a round easier', () => {
    const sawn = part(ARCH, 'allowance: {saw: 1/16}\n');
    const { hollow, round } = theOnly(sawn);
    expect(hollow?.radius).toBeCloseTo((5 - 1 / 16) * INCH, 6);
    expect(round?.radius).toBeCloseTo((3.75 + 1 / 16) * INCH, 6);
    expect(hollow!.at.x).toBeCloseTo(3 * INCH, 6);
    // On the line to saw itself: an arc's radius from its middle.
    expect(Math.hypot(hollow!.at.x - 3 * INCH, hollow!.at.y + 4 * INCH)).toBeCloseTo((5 - 1 / 16) * INCH, 6);
  });

  test('the widest blade turns both bends with the middle of its kerf', () => {
    // 3.75 in on the round and half a kerf more: under the 4 in that 5/8 in asks for
    expect(theOnly(part(ARCH)).widest?.name).toBe('1/2');
  });

  test('a bend of one line on a board is round or hollow by the side of the waste', () => {
    const line = (rise: number) => part(`  a:\n    - from: [0, 2]\n    - arc: [6, 2]\n      rise: ${rise}\n`);
    expect(theOnly(line(1))).toMatchObject({ round: { edge: 'a' } });
    expect(theOnly(line(1)).hollow).toBeUndefined();
    expect(theOnly(line(-1)).round).toBeUndefined();
  });

  test('a straight part has no bends', () => {
    const bar = part('  a:\n    - from: [0, 0]\n    - line: [30, 0]\n');
    const advice = theOnly(bar);
    expect([advice.hollow, advice.round]).toEqual([undefined, undefined]);
    expect(everyBladeTurns(adviseBlade(bar, edgesAsCut(bar), {}))).toBe(true);
  });

  test('a bend that an end cuts off does not count', () => {
    const shaped = (miter: number) =>
      part(
        `
  lower:
    - from: [0, 0]
    - line: [20, 0]
  upper:
    - from: [0, 4]
    - arc: [1, 3]
      radius: -1
    - line: [20, 3]
`,
        miter === 0 ? '' : `ends: {left: {miter: ${miter}}}\n`,
      );
    expect(theOnly(shaped(0)).hollow?.radius).toBeCloseTo(INCH, 6);
    const cut = shaped(-40);
    expect(theOnly(cut).hollow).toBeUndefined();
  });
});

describe('adviseBlade with the maker’s own blade', () => {
  // 2 1/8 in of radius on a chord of 2 in
  const hollow = part(`
  lower:
    - from: [0, 0]
    - line: [11, 0]
    - arc: [13, 0]
      radius: 2 1/8
    - line: [24, 0]
  upper:
    - from: [0, 3]
    - line: [24, 3]
`);

  const ownBlade = (width: number) => adviseBlade(hollow, edgesAsCut(hollow), { width }).ownBlade;

  test('a blade too wide for a hollow lists the bend', () => {
    expect(ownBlade(12.7)).toMatchObject({
      minRadius: expect.closeTo(2.5 * INCH, 9),
      tooTight: [
        { kind: 'hollow', radius: expect.closeTo(2.125 * INCH, 6), at: { x: expect.closeTo(12 * INCH, 6) } },
      ],
    });
  });

  test('a blade narrow enough turns every bend', () => {
    expect(ownBlade(9.525)?.tooTight).toEqual([]);
  });

  test('corners are inside or outside, with the turn between their lines', () => {
    const { corners } = theOnly(hollow);
    // asin(1 ÷ 2 1/8) = 28.07° at either end of the arc, the part above it
    expect(corners.map(({ kind }) => kind)).toEqual(['outside', 'outside']);
    for (const { turn } of corners) expect(turn).toBeCloseTo(Math.asin(1 / 2.125), 9);
    const notch = part(
      '  a:\n    - from: [0, 1]\n    - line: [5, 2]\n    - line: [10, 1]\n    - line: [15, 2]\n',
    );
    expect(theOnly(notch).corners).toMatchObject([
      { kind: 'outside', at: { x: 5 * INCH } },
      { kind: 'inside', at: { x: 10 * INCH } },
    ]);
  });
});

describe('edgesAsCut', () => {
  const lens = part(`
  lower:
    - from: [0, 0]
    - arc: [10, 0]
      rise: -1
  upper:
    - from: [0, 0]
    - arc: [10, 0]
      rise: 1 1/2
`);

  test('edges that meet in points have no corner there', () => {
    const { round, hollow, corners } = theOnly(lens);
    // 10²/(8·1.5) + 1.5/2
    expect(round).toMatchObject({ radius: expect.closeTo((100 / 12 + 0.75) * INCH, 6), edge: 'upper' });
    expect([hollow, corners]).toEqual([undefined, []]);
  });

  test('edges run from left to right, with the part between them', () => {
    expect(edgesAsCut(lens).map(({ name, woodIsAbove }) => [name, woodIsAbove])).toEqual([
      ['lower', true],
      ['upper', false],
    ]);
    for (const { pieces } of edgesAsCut(lens)) {
      expect(paramCurve(pieces[0]!)(0).x).toBeCloseTo(0, 9);
      expect(paramCurve(pieces.at(-1)!)(1).x).toBeCloseTo(10 * INCH, 9);
    }
  });

  test('property: a part and its mirror image have the same advice', () => {
    const rise = fc.double({ min: 0.3, max: 1.5, noNaN: true }).map((value) => value.toFixed(3));
    fc.assert(
      fc.property(rise, rise, fc.integer({ min: 2, max: 10 }), (low, high, station) => {
        const bent = (x: number) =>
          part(
            `
  lower:
    - from: [0, 0]
    - batten: [12, 0]
      through: [${x}, ${low}]
  upper:
    - from: [0, 4]
    - arc: [12, 4]
      rise: ${high}
`,
            'allowance: {saw: 1/16}\n',
          );
        const [one, other] = [bent(station), bent(12 - station)].map(theOnly);
        expect(other!.hollow!.radius).toBeCloseTo(one!.hollow!.radius, 4);
        expect(other!.hollow!.at.x).toBeCloseTo(12 * INCH - one!.hollow!.at.x, 3);
        expect(other!.widest).toEqual(one!.widest);
      }),
      { numRuns: 15 },
    );
  });
});
