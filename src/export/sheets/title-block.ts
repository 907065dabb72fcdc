import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import { printerScaleText } from '../../tiling/paper/printer-scale.ts';
import { present } from '../../units/lists.ts';
import { patternTitle } from '../cover/pair-words.ts';
import { type Item, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, truncateToWidth } from '../drawing/text-width.ts';
import { type Block, placeNear } from '../labels/free-space.ts';
import { type LabelledSheet, windowSpace } from './sheet-context.ts';
import { NOTE_MM } from './sheet-type.ts';

const SHEET_NAME_MM = 15;
const NAME_HEIGHT_MM = SHEET_NAME_MM * 0.8;
const PART_NAME_MM = 5.8;
const SMALL_PITCH_MM = NOTE_MM * LINE_SPACING;
const GAP_MM = 4;
/** At the right and below, so that no figure reads as a part of the title, mm. */
const WHITE_MM = 1.5;
/** How wide the part's name may run, mm, to try in turn; 0 leaves it out and stacks the rest. */
const PART_NAME_WIDTHS_MM = [75, 50, 30, 0];

/** Undefined without room. */
export function titleBlock(labelled: LabelledSheet): Item[] | undefined {
  const { part, layout, sheet, space } = labelled;
  const page = layout.sheets.indexOf(sheet) + 1;
  const number = `sheet ${page} of ${layout.sheets.length} · code ${layout.code}`;
  const small = [number, ...titleNotes(part, layout)];
  for (const each of [space, windowSpace(labelled)])
    for (const maxWidth of PART_NAME_WIDTHS_MM) {
      const name = maxWidth > 0 ? truncateToWidth(patternTitle(part, layout), PART_NAME_MM, maxWidth) : '';
      const block = titleOf(sheet.name, name, small);
      const items = placeNear(each, { x: each.area.left, y: each.area.top - block.height }, block);
      if (items) return items;
    }
  return undefined;
}

const titleNotes = ({ shape }: Part, { printer, mirrored }: Layout): string[] =>
  present(
    mirrored && 'mirrored pattern',
    shape.type === 'half' && 'half pattern, to flip at the center line',
    printer && `corrected for ${printer.name ?? 'a printer'}: ${printerScaleText(printer)}`,
  );

/** Without the part's name the small lines go below the sheet's name. */
function titleOf(sheet: string, part: string, small: readonly string[]): Block {
  const sheetWidth = textWidth(sheet, SHEET_NAME_MM);
  const smallWidth = Math.max(...small.map((line) => textWidth(line, NOTE_MM)));
  const indent = part === '' ? 0 : sheetWidth + GAP_MM;
  const below = (part === '' ? small.length : small.length - 1) * SMALL_PITCH_MM;
  return {
    width: indent + Math.max(part === '' ? sheetWidth : textWidth(part, PART_NAME_MM), smallWidth) + WHITE_MM,
    height: NAME_HEIGHT_MM + below + WHITE_MM,
    draw: ({ left, bottom }) => {
      const [x, y] = [left + indent, bottom + 1 + WHITE_MM];
      return [
        { ...words(sheet, { x: left, y: y + below }, SHEET_NAME_MM), bold: true as const },
        ...(part === '' ? [] : [words(part, { x, y: y + below + 5.8 }, PART_NAME_MM)]),
        ...small.map((line, i) =>
          words(line, { x, y: y + (small.length - 1 - i) * SMALL_PITCH_MM }, NOTE_MM),
        ),
      ];
    },
  };
}
