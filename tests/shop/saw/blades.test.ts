import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { Part } from '../../../src/part/part.ts';
import { sawnEdges } from '../../../src/shop/saw/bends-and-corners.ts';
import { adviseBlade, kerfRadius } from '../../../src/shop/saw/blade-advice.ts';
import { BLADES, kerfLimitedRadius, minBladeRadius, widestBlade } from '../../../src/shop/saw/blades.ts';
import { describeBlade } from '../../../src/shop/words/describe-blade.ts';
import { showLength } from '../../../src/units/rule.ts';
import { partOf } from '../../part/jobs.ts';

const INCH = 25.4;
const part = (edges: string, more = '') => partOf(`part: Rail\nunits: in\n${more}edges:\n${edges}`);
const words = (width: number, of = part('')) => {
  const rounded = (mm: number): string => showLength(mm, of.rule);
  return describeBlade(adviseBlade(of, sawnEdges(of), { width }), {
    exact: rounded,
    rounded,
    unit: 'in',
  }).join('\n');
};

/** The one hollow and the one round of a part with no more of either. */
const theOnly = (of: Part) => {
  const { hollows, rounds, ...advice } = adviseBlade(of, sawnEdges(of), {});
  expect([hollows.length, rounds.length].every((count) => count < 2)).toBe(true);
  return { ...advice, hollow: hollows[0], round: rounds[0] };
};

describe('the chart', () => {
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
  ])('a %f in blade asks for a radius of %f in', (width, radius) => {
    expect(minBladeRadius(width * INCH)).toBeCloseTo(radius * INCH, 9);
    expect(widestBlade(radius * INCH)?.width).toBeCloseTo(width * INCH, 9);
    expect(widestBlade(radius * INCH - 0.01)?.width ?? 0).toBeLessThan(width * INCH);
  });

  test('blades between its rows ask for a radius between', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 31.75, noNaN: true }), (width) => {
        const radius = minBladeRadius(width);
        for (const row of BLADES)
          if (row.width <= width) expect(radius).toBeGreaterThanOrEqual(row.radius - 1e-9);
          else expect(radius).toBeLessThanOrEqual(row.radius + 1e-9);
      }),
    );
  });

  test('a blade sold as 32 mm is the 1 1/4 in one; a wider one is refused', () => {
    expect(minBladeRadius(32)).toBeGreaterThan(9.875 * INCH);
    expect(() => minBladeRadius(33)).toThrow(/saws no curves/);
  });
});

describe('the kerf', () => {
  test('a band just fits between two circles a kerf apart', () => {
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

  test('a worn set asks for more than the chart, a wide one for no less', () => {
    expect(minBladeRadius(12.7, { kerf: 0.8, bladeThickness: 0.635 })).toBeCloseTo(
      12.7 ** 2 / (8 * 0.165),
      9,
    );
    expect(minBladeRadius(12.7, { kerf: 1.4, bladeThickness: 0.635 })).toBeCloseTo(63.5, 9);
  });

  test('lies in the waste: half of it tightens a hollow and eases a round', () => {
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

describe('the tightest bends', () => {
  test('of an arch: its lower edge is the hollow, its upper the round', () => {
    const { hollow, round } = theOnly(part(ARCH));
    expect(hollow).toMatchObject({ radius: expect.closeTo(5 * INCH, 6), edge: 'lower' });
    expect(round).toMatchObject({ radius: expect.closeTo(3.75 * INCH, 6), edge: 'upper' });
  });

  test('on the saw line the hollow is tighter by the allowance, the round easier', () => {
    const sawn = part(ARCH, 'allowance: {saw: 1/16}\n');
    const { hollow, round } = theOnly(sawn);
    expect(hollow?.radius).toBeCloseTo((5 - 1 / 16) * INCH, 6);
    expect(round?.radius).toBeCloseTo((3.75 + 1 / 16) * INCH, 6);
    expect(hollow!.at.x).toBeCloseTo(3 * INCH, 6);
    // On the line to saw itself: an arc's radius from its middle.
    expect(Math.hypot(hollow!.at.x - 3 * INCH, hollow!.at.y + 4 * INCH)).toBeCloseTo((5 - 1 / 16) * INCH, 6);
  });

  test('the widest blade turns both, by the middle of the kerf', () => {
    // 3.75 in on the round and half a kerf more: under the 4 in that 5/8 in asks for
    expect(theOnly(part(ARCH)).widest?.name).toBe('1/2');
  });

  test('of one line on a board lie by the side of its waste', () => {
    const line = (rise: number) => part(`  a:\n    - from: [0, 2]\n    - arc: [6, 2]\n      rise: ${rise}\n`);
    expect(theOnly(line(1))).toMatchObject({ round: { edge: 'a' } });
    expect(theOnly(line(1)).hollow).toBeUndefined();
    expect(theOnly(line(-1)).round).toBeUndefined();
  });

  test('a straight part has none, and any blade saws it', () => {
    const bar = part('  a:\n    - from: [0, 0]\n    - line: [30, 0]\n');
    const advice = theOnly(bar);
    expect([advice.hollow, advice.round]).toEqual([undefined, undefined]);
    expect(words(12.7, bar)).toMatch(/nothing bends/);
  });

  test('what the ends cut off does not count', () => {
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

describe('the maker’s own blade', () => {
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

  test('too wide for a hollow: where, and what to do instead', () => {
    const told = words(12.7, hollow);
    expect(told).toMatch(/the 1\/2 in blade does not turn the 2 1\/8 in hollow at station 1[123]/);
    expect(told).toMatch(/[Nn]ibble.*relief cuts.*3\/8 in blade/);
  });

  test('narrow enough: it turns every bend', () => {
    expect(words(9.525, hollow)).toMatch(/the 3\/8 in blade turns every bend/);
  });

  test('inside corners are places for relief cuts, outside ones are run past', () => {
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
    expect(words(6.35, notch)).toMatch(/inside corner of .* at station 10 in.*relief cut/);
  });
});

describe('the edges as they are sawn', () => {
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

  test('of a part that runs out in points have no corner where they meet', () => {
    const { round, hollow, corners } = theOnly(lens);
    // 10²/(8·1.5) + 1.5/2
    expect(round).toMatchObject({ radius: expect.closeTo((100 / 12 + 0.75) * INCH, 6), edge: 'upper' });
    expect([hollow, corners]).toEqual([undefined, []]);
  });

  test('run from left to right, with the part between them', () => {
    expect(sawnEdges(lens).map(({ name, wood }) => [name, wood])).toEqual([
      ['lower', 'above'],
      ['upper', 'below'],
    ]);
    for (const { pieces } of sawnEdges(lens)) {
      expect(paramCurve(pieces[0]!)(0).x).toBeCloseTo(0, 9);
      expect(paramCurve(pieces.at(-1)!)(1).x).toBeCloseTo(10 * INCH, 9);
    }
  });

  test('property: a part and its mirror image ask for the same blade', () => {
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
