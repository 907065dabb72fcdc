import { expect, test } from 'vitest';
import { pathBounds, union } from '../../../src/curves/geometry/bounds.ts';
import type { Item, Stroke } from '../../../src/export/drawing/drawing.ts';
import { textWidth } from '../../../src/export/drawing/text-width.ts';
import { composeBoard } from '../../../src/export/pictures/board-picture.ts';
import { planStock } from '../../../src/shop/stock/stock-plan.ts';
import { samplePart } from '../../part/jobs.ts';

const isStroke = (item: Item): item is Stroke => item.type === 'stroke';

test.each([
  ['hall-bench-leg.yaml', {}],
  ['wall-shelf-bracket.yaml', { boardWidth: 400, boardLength: 700 }],
  ['garden-arch-rail.yaml', { boardWidth: 2000, boardLength: 2100 }],
])('%s: every copy is drawn on its board, and every word on the page', (name, wish) => {
  const part = samplePart(name);
  const plan = planStock(part, wish);
  const { items, width, height } = composeBoard(part, plan, plan.nesting!);
  const strokes = items.filter(isStroke);
  const cuts = strokes.filter(({ style }) => style === 'cut');
  expect(cuts).toHaveLength(plan.nesting!.copiesOn(1).length);
  const board = pathBounds(strokes.find(({ style }) => style === 'rule')!.path);
  const drawn = union(strokes.filter(({ style }) => style !== 'rule').map(({ path }) => pathBounds(path)));
  // A micrometre: what the shifts of copies leave of rounding and of the outlines' fit.
  expect(drawn.left).toBeGreaterThan(board.left - 1e-3);
  expect(drawn.bottom).toBeGreaterThan(board.bottom - 1e-3);
  expect(drawn.right).toBeLessThan(board.right + 1e-3);
  expect(drawn.top).toBeLessThan(board.top + 1e-3);
  for (const item of items) {
    if (item.type !== 'words' || item.turn) continue;
    expect(item.at.x).toBeGreaterThan(0);
    const right = item.anchor === 'start' ? item.at.x + textWidth(item.text, item.size) : item.at.x;
    expect(right).toBeLessThan(width);
    expect(item.at.y).toBeLessThan(height);
  }
});
