import { describe, expect, test } from 'vitest';
import type { Part } from '../../../src/part/part.ts';
import { weakestSection } from '../../../src/shop/stock/weakest-section.ts';
import { partOf, samplePart } from '../jobs.ts';

const IN = 25.4;

/** A rail 400 long, its lower edge straight on the reference line, its upper one as told. */
const rail = (
  upper: readonly [number, number][],
  lower: readonly [number, number][] = [
    [0, 0],
    [400, 0],
  ],
  rest = '',
) => {
  const steps = (points: readonly [number, number][]): string =>
    points.map(([x, y], i) => `    - ${i === 0 ? 'from' : 'line'}: [${x}, ${y}]\n`).join('');
  return partOf(`part: Rail\nunits: mm\nedges:\n  low:\n${steps(lower)}  up:\n${steps(upper)}${rest}`);
};

function closed({ shape }: Part) {
  if (shape.type !== 'closed') throw new Error('a rail is closed');
  return shape;
}

describe('a tenon', () => {
  test('of the seat rail is listed beside the least width between the shoulders', () => {
    // From 3/4 to 2 3/4 in on the tenons; between them the lower edge rises to 1 in and the upper one lies at 3 1/4.
    const { leastWidth, tenons } = closed(samplePart('hall-bench/seat-rail.yaml'));
    expect(leastWidth.width / IN).toBeCloseTo(2.25, 6);
    expect(leastWidth.at.x / IN).toBeCloseTo(19, 3);
    expect(tenons.map(({ side, shoulder, width }) => [side, shoulder / IN, width / IN])).toEqual([
      ['left', expect.closeTo(1, 9), expect.closeTo(2, 9)],
      ['right', expect.closeTo(37, 9), expect.closeTo(2, 9)],
    ]);
  });

  test('with a shoulder on one edge alone is one, too', () => {
    const { leastWidth, tenons } = closed(
      rail([
        [0, 40],
        [30, 40],
        [30, 60],
        [400, 60],
      ]),
    );
    expect(leastWidth.width).toBeCloseTo(60, 9);
    expect(tenons).toMatchObject([{ side: 'left', shoulder: 30, width: expect.closeTo(40, 9) }]);
  });

  test('whose shoulders are not level reaches to the nearer one: behind it the part is open', () => {
    const { leastWidth, tenons } = closed(
      rail(
        [
          [0, 40],
          [50, 40],
          [50, 60],
          [400, 60],
        ],
        [
          [0, 20],
          [30, 20],
          [30, 0],
          [400, 0],
        ],
      ),
    );
    expect(tenons).toMatchObject([{ shoulder: 30, width: expect.closeTo(20, 9) }]);
    expect(leastWidth.width).toBeCloseTo(40, 9);
  });

  test.each<[string, readonly [number, number][], number]>([
    [
      'a notch on the way',
      [
        [0, 60],
        [200, 60],
        [200, 30],
        [220, 30],
        [220, 60],
        [400, 60],
      ],
      30,
    ],
    [
      'a foot wider than the rest',
      [
        [0, 80],
        [30, 80],
        [30, 60],
        [400, 60],
      ],
      60,
    ],
    [
      'a stub longer than a quarter of the part',
      [
        [0, 40],
        [110, 40],
        [110, 60],
        [400, 60],
      ],
      40,
    ],
  ])('is not %s: its width counts', (_, upper, width) => {
    const { leastWidth, tenons } = closed(rail(upper));
    expect(tenons).toEqual([]);
    expect(leastWidth.width).toBeCloseTo(width, 9);
  });

  test('behind which there is a notch hides only itself', () => {
    const { leastWidth, tenons } = closed(
      rail([
        [0, 20],
        [30, 20],
        [30, 60],
        [200, 60],
        [200, 30],
        [220, 30],
        [220, 60],
        [400, 60],
      ]),
    );
    expect(tenons).toHaveLength(1);
    expect(leastWidth).toMatchObject({ width: expect.closeTo(30, 9) });
  });

  test('is no section of the part, pinned through or not', () => {
    // (60/60)² of a straight board of 60 mm, whatever is bored through the tenon.
    const pinned = 'joints:\n  - hole: {at: 15, out: 20, diameter: 8}\n';
    const upper: readonly [number, number][] = [
      [0, 40],
      [30, 40],
      [30, 60],
      [400, 60],
    ];
    for (const rest of ['', pinned])
      expect(weakestSection(rail(upper, undefined, rest), 60)!.share).toBeCloseTo(1, 9);
  });
});
