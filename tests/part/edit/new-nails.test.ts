import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { insertNail } from '../../../src/job/edit/edit-nails.ts';
import {
  linesForNails,
  type NewNail,
  nailAfter,
  nailAtPointer,
  nailInWidestGap,
  parseNailKey,
  settableKinds,
} from '../../../src/part/edit/new-nails.ts';
import { offsetAt } from '../../../src/part/offsets.ts';
import type { Part } from '../../../src/part/part.ts';
import { partOf, sampleText } from '../jobs.ts';

const INCH = 25.4;
/** Half the finest mark of the leg's rule: as far as a nail may stand off the line it is set on. */
const HALF_MARK = INCH / 64;

const LEG = partOf(sampleText('hall-bench-leg.yaml'));
const job = (steps: string): string => `part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n${steps}`;
const KINDS = partOf(
  job(
    '    - line: [200, 0]\n    - arc: [400, 0]\n      rise: 20\n' +
      '    - spline: [700, 0]\n      through: [[500, 20], [600, 20]]\n    - batten: [1000, 0]\n      apex: [850, 30]\n',
  ),
);

const back = (part: Part) => part.edges.find(({ name }) => name === 'back')!;

describe('a nail set by hand', () => {
  test('is on the line closest to the pointer, on a mark, between its neighbors', () => {
    const nail = nailAtPointer(LEG, { x: 20 * INCH, y: 3.4 * INCH }, INCH)!;
    expect(nail).toMatchObject({ what: 'nail', edge: 'back', key: 'edges.back[1].through', index: 1 });
    expect(Math.abs(nail.at.x / INCH - 20)).toBeLessThan(0.05);
    expect(Math.abs(nail.at.y - offsetAt(back(LEG), nail.at.x)!)).toBeLessThanOrEqual(HALF_MARK);
  });

  test('is undefined if no line is close', () => {
    expect(nailAtPointer(LEG, { x: 20 * INCH, y: 10 * INCH }, INCH)).toBeUndefined();
  });

  test.each([
    [100, 'a line has no nails'],
    [300, 'an arc has no nails'],
    [850, 'write "through" instead of "apex"'],
  ])('at station %d is refused with a remedy', (x, said) => {
    expect(() => nailAtPointer(KINDS, { x, y: 0 }, 60)).toThrow(said);
  });

  test('is a point on a spline; where a line and a spline meet, the spline takes it', () => {
    expect(settableKinds(KINDS)).toEqual(['point']);
    expect(nailAtPointer(KINDS, { x: 401, y: 3 }, 30)).toMatchObject({ what: 'point', index: 0 });
    expect(linesForNails(KINDS)).toEqual([KINDS.edges[0]!.runs[2]!.path]);
  });

  test('property: a nail 100 mm from its neighbors bends the line by little more than its rounding', () => {
    const inches = fc.oneof(
      fc.double({ min: 3, max: 9, noNaN: true }),
      fc.double({ min: 15, max: 31, noNaN: true }),
    );
    fc.assert(
      fc.property(inches, (station) => {
        const hand = { x: station * INCH, y: offsetAt(back(LEG), station * INCH)! };
        const nail = nailAtPointer(LEG, hand, 1)!;
        const part = partOf(insertNail(sampleText('hall-bench-leg.yaml'), nail.key, nail.index, nail.typed));
        for (const x of [1, 5, 9, 15, 21, 27, 33].map((inch) => inch * INCH)) {
          // The end of a span L turned by e/d lifts its middle by e/d · L/(3√3) at most (beam theory, end
          // moment alone): with d of 3 in and L of 22 in less than twice e.
          const moved = offsetAt(back(part), x)! - offsetAt(back(LEG), x)!;
          expect(Math.abs(moved)).toBeLessThan(2 * HALF_MARK);
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('a nail set from the keyboard', () => {
  const station = ({ typed }: NewNail): string => typed[0];

  test('is halfway from the selected place to the next one', () => {
    const [end] = LEG.edges[1]!.runs;
    expect(station(nailAfter(LEG, 'back', LEG.edges[1]!.runs[0]!.from))).toBe('6');
    expect(station(nailAfter(LEG, 'back', { x: 12 * INCH, y: 3.25 * INCH }))).toBe('23');
    // From the last one back.
    expect(station(nailAfter(LEG, 'back', end!.to))).toBe('23');
  });

  test('or in the widest gap, of the edge in hand if that takes any', () => {
    expect(station(nailInWidestGap(LEG))).toBe('23');
    expect(nailInWidestGap(LEG, 'front').edge).toBe('back');
    // The widest is neither the first nor the last, nor where the stations are largest.
    const gaps = partOf(
      job('    - batten: [1000, 0]\n      through: [[100, 5], [300, 10], [800, 8], [950, 4]]\n'),
    );
    expect(nailInWidestGap(gaps).at.x).toBe(550);
  });

  test('is refused beside a straight line, and for a part without nails', () => {
    expect(() => nailAfter(LEG, 'front', { x: 0, y: 0 })).toThrow('a line has no nails');
    const rail = partOf(sampleText('garden-arch-rail.yaml'));
    expect(() => nailInWidestGap(rail)).toThrow('write "through" instead of "apex"');
    const arched = partOf(job('    - line: [200, 0]\n    - arc: [400, 0]\n      rise: 20\n'));
    expect(() => nailInWidestGap(arched)).toThrow('an arc has no nails');
    expect(settableKinds(rail)).toEqual([]);
  });
});

test('which nail a key names', () => {
  expect(parseNailKey('edges.back[1].through[3]')).toEqual({ list: 'edges.back[1].through', index: 3 });
  expect(parseNailKey('edges.back[1].through')).toBeUndefined();
  expect(parseNailKey('edges.back[1].batten')).toBeUndefined();
});
