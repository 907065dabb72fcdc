import { point } from '../../curves/geometry/point.ts';
import { boxCorners, type Item, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, textWidth } from '../drawing/text-width.ts';
import { type Block, placeNear } from '../labels/free-space.ts';
import type { LabelledSheet } from './sheet-context.ts';

const NAME_MM = 3.2;
/** A box of the map, mm, with the names of the sheets or, of a large pattern, without. */
const NAMED = { wide: 11, high: 6 } as const;
const PLAIN = { wide: 4, high: 3 } as const;
/** The map gives way to the words: no wider or higher than this, mm. */
const MOST_MM = { wide: 110, high: 45 } as const;
const WHITE_MM = 1.5;

/** All sheets in small, this one filled, near the top right of the sheet. */
export function sheetMap(labelled: LabelledSheet): Item[] {
  const { layout, space } = labelled;
  if (layout.sheets.length === 1) return [];
  for (const box of [NAMED, PLAIN]) {
    const block = mapBlock(labelled, box);
    if (block.width > MOST_MM.wide || block.height > MOST_MM.high) continue;
    const corner = point(space.area.right - block.width, space.area.top - block.height);
    const items = placeNear(space, corner, block);
    if (items) return items;
  }
  return [];
}

function mapBlock({ sheet, layout }: LabelledSheet, { wide, high }: typeof NAMED | typeof PLAIN): Block {
  return {
    width: layout.columns * wide + 2 * WHITE_MM,
    height: layout.rows * high + 2 * WHITE_MM,
    draw: ({ left, top }) =>
      layout.sheets.flatMap(({ name, row, column }): Item[] => {
        const [x, y] = [left + WHITE_MM + column * wide, top - WHITE_MM - (row + 1) * high];
        const frame = boxCorners({ left: x, right: x + wide, bottom: y, top: y + high });
        const isThis = name === sheet.name;
        const outline: Item = { ...polyline('rule', frame, true), ...(isThis && { filled: true }) };
        if (isThis || textWidth(name, NAME_MM) > wide - 1) return [outline];
        const at = point(x + wide / 2, y + (high - NAME_MM * CAP_HEIGHT) / 2);
        return [outline, words(name, at, NAME_MM, 'middle')];
      }),
  };
}
