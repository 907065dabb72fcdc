import { describe, expect, test } from 'vitest';
import { footOut } from '../../../src/part/ends/standing.ts';
import { type StandingView, standingViews } from '../../../src/part/ends/standing-views.ts';
import type { Part } from '../../../src/part/part.ts';
import { partOf } from '../jobs.ts';

const leg = (stands: string, upper = '    - line: [500, 60]\n', stock = 'stock: {thickness: 40}\n'): Part =>
  partOf(
    `part: Leg\nunits: mm\n${stock}stands: ${stands}\nedges:\n` +
      `  outer:\n    - from: [0, 0]\n    - line: [500, 0]\n  inner:\n    - from: [0, 60]\n${upper}`,
  );

const COMBINATIONS = (['left', 'right'] as const).flatMap((foot) =>
  (['outer', 'inner'] as const).flatMap((edge) =>
    (['reference-face', 'other-face'] as const).flatMap((face) =>
      (['none', 'level-across'] as const).map((twist) => [foot, edge, face, twist] as const),
    ),
  ),
);

const average = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / list.length;

/** How far right of the top the foot is. */
const footRight = ({ along: [foot, top] }: StandingView): number => foot.x - top.x;

const middleAt = ({ outline }: StandingView, y: number): number =>
  average(outline.filter((at) => Math.abs(at.y - y) < 1e-6).map(({ x }) => x));

describe.each(COMBINATIONS)(
  'a leg with its foot at the %s, out towards %s and %s, twist %s',
  (foot, edge, face, twist) => {
    const part = leg(`{foot: ${foot}, foot-out: {${edge}: 6, ${face}: 4, twist: ${twist}}}`);
    const [front, side] = standingViews(part) as [StandingView, StandingView];
    const [toEdge, toFace] = footOut(part);

    test.each([
      ['front', front],
      ['side', side],
    ])('has both its ends level from the %s', (_, { outline, height }) => {
      const heights = outline.map(({ y }) => y);
      const level = heights.filter((y) => Math.abs(y) < 1e-6 || Math.abs(y - height) < 1e-6);
      expect(level).toHaveLength(4);
      expect(Math.min(...heights)).toBeCloseTo(0, 6);
      expect(Math.max(...heights)).toBeCloseTo(height, 6);
    });

    test('shows both distances of its foot, toward the right sides', () => {
      // As it stands, the reference face toward the reader: the outer edge, of offset 0, is at the right of a leg whose
      // foot is its left end. The side view is from the right, with the reference face at its left.
      const outerIsRight = foot === 'left';
      expect(footRight(front)).toBeCloseTo(
        (edge === 'outer') === outerIsRight ? toEdge!.distance : -toEdge!.distance,
        6,
      );
      expect(footRight(side)).toBeCloseTo(
        face === 'reference-face' ? -toFace!.distance : toFace!.distance,
        6,
      );
      expect(middleAt(front, 0) - middleAt(front, front.height)).toBeCloseTo(footRight(front), 6);
      // The two edges of the side view are on the two faces, which are not quite square to the sight of a leg without
      // twist: b² / 2 of the width of the part.
      expect(middleAt(side, 0) - middleAt(side, side.height)).toBeCloseTo(footRight(side), 6);
      expect(front.out).toEqual(toEdge);
      expect(side.out).toEqual(toFace);
    });

    test('shows both angles of the job', () => {
      expect((Math.atan(Math.abs(footRight(front)) / front.height) * 180) / Math.PI).toBeCloseTo(6, 9);
      expect((Math.atan(Math.abs(footRight(side)) / side.height) * 180) / Math.PI).toBeCloseTo(4, 9);
    });

    test('is as wide and as thick as it is, but for the angles', () => {
      const width = (view: StandingView): number => {
        const xs = view.outline.filter(({ y }) => Math.abs(y) < 1e-6).map(({ x }) => x);
        return Math.max(...xs) - Math.min(...xs);
      };
      // A level cut across a leaning leg is longer by 1 ÷ cos 6° = 1.0055, and 1 ÷ cos 4° = 1.0024.
      expect(width(front) / 60).toBeGreaterThan(1);
      expect(width(front) / 60).toBeLessThan(1.009);
      expect(width(side) / 40).toBeGreaterThan(1);
      expect(width(side) / 40).toBeLessThan(1.006);
      expect(side.toward).toBe(foot === 'left' ? 'outer' : 'inner');
    });
  },
);

test('a leg that is out one way only is plumb in the other view', () => {
  const [front, side] = standingViews(leg('{foot: left, foot-out: {outer: 6}}')) as [
    StandingView,
    StandingView,
  ];
  expect(front.out?.by).toBeCloseTo(Math.PI / 30, 9);
  expect(side.out).toBeUndefined();
  expect(footRight(side)).toBeCloseTo(0, 9);
});

test('without a thickness there is no view from the side', () => {
  expect(standingViews(leg('{foot: left, foot-out: {outer: 6}}', undefined, ''))).toHaveLength(1);
});

test('a tapered leg has its line along the straight edge', () => {
  const part = leg('{foot: left, foot-out: {inner: 6}}', '    - line: [500, 90]\n');
  const [front] = standingViews(part) as [StandingView];
  expect(front.isDrawn).toBe(true);
  expect(footRight(front)).toBeCloseTo(-footOut(part)[0]!.distance, 6);
});

test.each(['{foot: left}', '{foot: left, foot-out: {outer: 0}}'])(
  'an upright leg needs no view: %s',
  (stands) => {
    expect(standingViews(leg(stands))).toEqual([]);
  },
);
