import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { columnHeight, orientedPaths } from '../../../src/shop/nesting/copy-placement.ts';
import {
  cachedSeparation,
  minSeparation,
  type Silhouette,
  silhouetteOf,
} from '../../../src/shop/nesting/min-separation.ts';
import { mirroredColumns } from '../../../src/shop/nesting/mirrored-columns.ts';
import { type Nesting, nest } from '../../../src/shop/nesting/nest-copies.ts';
import {
  boxedColumns,
  layoutByHandedness,
  type NestingLayout,
  type NestingOptions,
} from '../../../src/shop/nesting/nesting-layouts.ts';
import type { Stack } from '../../../src/shop/nesting/stacking.ts';
import { footprintOf } from '../../../src/shop/stock/footprint.ts';
import { partOf } from '../../part/jobs.ts';
import { allCopies, KERF, mustKeepApart, wishFor } from '../laid.ts';

describe('nest of a mirrored pair by hand', () => {
  const leg = partOf(readFileSync('samples/hall-bench/leg.yaml', 'utf8'));
  const footprint = footprintOf(leg, 0);
  const pair = { handed: true, mirrored: true };
  const lay = (quantity: number, board: NestingOptions['board']): Nesting =>
    nest(footprint, wishFor(leg, { ...pair, quantity, board }));
  const layoutByHand = (quantity: number, board: NestingOptions['board']): NestingLayout => {
    const options = wishFor(leg, { ...pair, quantity, board });
    return layoutByHandedness(boxedColumns(footprint, board.length, KERF), {
      footprint,
      options,
      gap: KERF,
      separation: cachedSeparation(footprint, KERF),
    });
  };
  const byHand = ({ ways }: Nesting) => ways.find(({ way }) => way === 'by-hand')!;

  test('four legs lie thin end to thick end, two of either hand, the kerf apart', () => {
    const nesting = lay(4, { length: 480 });
    expect(nesting.way).toBe('by-hand');
    expect(nesting.copiesOn(1).map(({ over }) => over)).toEqual([false, false, true, true]);
    expect(nesting.pitch).toBeLessThan(nesting.rectangles.pitch - 5);
    mustKeepApart(leg, nesting);
  });

  test('two copies of one hand lie as near as a search over shifts finds', () => {
    const board = { length: footprint.length + 20, width: footprint.width * 1.98 };
    const [own, turned] = (['same', 'turned'] as const).map((lie) =>
      silhouetteOf(orientedPaths(footprint, lie)),
    ) as [Silhouette, Silhouette];
    const searched = Array.from({ length: 81 }, (_, i) => i / 2 - 20).flatMap((shift) => [
      minSeparation(own, turned, shift, KERF),
      minSeparation(turned, own, shift, KERF),
    ]);
    const nesting = lay(4, board);
    expect(byHand(nesting).pitch).toBeLessThanOrEqual(Math.min(...searched) + 0.05);
    expect(byHand(nesting)).toMatchObject({ across: 2, perBoard: 2, boards: 2 });
    expect(nesting.copiesOn(1).map(({ over }) => over)).toEqual([false, false]);
    mustKeepApart(leg, nesting);
  });

  test.each([4, 5, 6, 7, 9, 10, 14])('%i copies are half of either hand on any board', (quantity) => {
    for (const [length, width] of [
      [480, 110],
      [480, 170],
      [480, 230],
      [950, 170],
      [1450, 290],
      [1450, 2000],
    ] as const) {
      const nesting = lay(quantity, { length, width });
      mustKeepApart(leg, nesting);
      expect(nesting.boards).toBeLessThanOrEqual(nesting.rectangles.boards);
      const copies = allCopies(nesting);
      expect(copies.filter(({ over }) => !over)).toHaveLength(Math.ceil(quantity / 2));
      expect(copies).toHaveLength(quantity);
    }
  });

  test('the pitch is the average over the columns of the first board, or that of two copies', () => {
    const average = (quantity: number, board: NestingOptions['board']): number => {
      const layout = layoutByHand(quantity, board);
      const columns = Array.from({ length: Math.min(layout.figures.along, layout.count) }, (_, i) =>
        layout.column(i).map(({ y }) => y),
      );
      const heights = columns.map((ys) => Math.max(...ys) - Math.min(...ys));
      expect(new Set(heights.map((height) => height.toFixed(3))).size).toBeGreaterThan(1);
      return (
        heights.reduce((sum, height) => sum + height, 0) / columns.reduce((sum, ys) => sum + ys.length - 1, 0)
      );
    };
    for (const quantity of [5, 7, 9]) {
      const board = { length: 1450, width: 230 };
      expect(layoutByHand(quantity, board).figures.pitch).toBeCloseTo(average(quantity, board), 9);
    }
    // Wide enough for one: none has a neighbour across.
    const one = layoutByHand(4, { length: 480, width: footprint.width + 1 }).figures;
    expect(one.across).toBe(1);
    expect(one.pitch).toBeCloseTo(
      layoutByHand(4, { length: 480, width: 2 * footprint.width }).figures.pitch,
      9,
    );
  });

  test('hands that pass each other lie side by side, none below the board', () => {
    const beside: Stack = {
      height: () => 0,
      within: () => 3,
      places: (copies) =>
        Array.from({ length: copies }, (_, i) => ({ x: 500 * i, y: 0, orientation: 'same' })),
    };
    const { column } = mirroredColumns(4, 3, 0, {
      stack: beside,
      separation: () => Number.NEGATIVE_INFINITY,
    });
    expect(column(0).map(({ y }) => y)).toEqual([0, 0, 0]);
  });

  test('the columns hold the whole quantity, and none more than fits', () => {
    const separation = cachedSeparation(footprint, KERF);
    const step = (other: boolean) =>
      Math.max(0, other ? separation('same', 'turned', 0) : separation('turned', 'same', 0));
    const stack: Stack = {
      height: (copies) => stack.places(copies).at(-1)!.y,
      within: () => 3,
      places: (copies) => {
        let y = 0;
        return Array.from({ length: copies }, (_, i) => {
          if (i > 0) y += step(i % 2 === 1);
          return { x: 0, y, orientation: i % 2 === 1 ? 'turned' : 'same' };
        });
      },
    };
    for (let quantity = 4; quantity < 20; quantity++) {
      const room = stack.height(3);
      const { count, column } = mirroredColumns(quantity, 3, room, { stack, separation });
      const columns = Array.from({ length: count }, (_, i) => column(i));
      const over = columns.flat().filter(({ orientation }) => orientation.startsWith('over'));
      expect([columns.flat().length, over.length]).toEqual([quantity, Math.floor(quantity / 2)]);
      expect(Math.max(...columns.map(columnHeight))).toBeLessThanOrEqual(room + 1e-9);
      expect(columns.every((one) => one.length > 0 && one.length <= 3)).toBe(true);
    }
  });
});
