import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { nest } from '../../../src/shop/nesting/nest-copies.ts';
import { footprintOf } from '../../../src/shop/stock/footprint.ts';
import { partOf } from '../../part/jobs.ts';
import { allCopies, mustKeepApart, wishFor } from '../laid.ts';

describe('nest of a mirrored pair', () => {
  const leg = partOf(readFileSync('samples/hall-bench/leg.yaml', 'utf8'));
  const footprint = footprintOf(leg, 0);

  test.each([4, 5, 6, 7, 9, 10, 14])('%i copies are half of either hand on any board', (quantity) => {
    for (const [length, width] of [
      [480, 110],
      [480, 170],
      [480, 230],
      [950, 170],
      [1450, 290],
      [1450, 2000],
    ] as const) {
      const nesting = nest(
        footprint,
        wishFor(leg, { handed: true, mirrored: true, quantity, board: { length, width } }),
      );
      mustKeepApart(leg, nesting);
      expect(nesting.boards).toBeLessThanOrEqual(nesting.rectangles.boards);
      const copies = allCopies(nesting);
      expect(copies.filter(({ over }) => !over)).toHaveLength(Math.ceil(quantity / 2));
      expect(copies).toHaveLength(quantity);
    }
  });

  test('of any quantity goes on a board as wide as it needs, half of either hand', () => {
    for (const quantity of [2, 3, 4, 7]) {
      const nesting = nest(
        footprint,
        wishFor(leg, { handed: true, mirrored: true, quantity, board: { length: 480 } }),
      );
      mustKeepApart(leg, nesting);
      expect(nesting.boards).toBe(1);
      expect(allCopies(nesting).filter(({ over }) => !over)).toHaveLength(Math.ceil(quantity / 2));
    }
  });
});
