import type { Point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import { printerScaleText } from '../../tiling/paper/printer-scale.ts';
import { patternTitle } from '../cover/pair-words.ts';
import { type Item, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, truncateToWidth } from '../drawing/text-width.ts';
import { type OccupiedSpace, reserveNear } from '../labels/free-space.ts';
import type { SheetContext } from './sheet-context.ts';

const SHEET_NAME_MM = 14;
const PART_NAME_MM = 5;
const SMALL_MM = 3.2;
const GAP_MM = 4;

/** How wide the part's name may run, mm, to try in turn; 0 leaves it out and stacks the rest. */
const PART_NAME_WIDTHS_MM = [75, 50, 30, 0];

/** The sheet's name, large, with the part, the page and the pattern's code. Undefined without room. */
export function titleBlock(
  { part, layout, sheet }: SheetContext,
  rooms: readonly OccupiedSpace[],
): Item[] | undefined {
  const page = layout.sheets.indexOf(sheet) + 1;
  const small = [
    `sheet ${page} of ${layout.sheets.length} · code ${layout.code}`,
    ...titleNotes(part, layout),
  ];
  for (const room of rooms)
    for (const most of PART_NAME_WIDTHS_MM) {
      const items =
        most > 0
          ? titleBeside(room, sheet.name, patternTitle(part, layout), small, most)
          : titleStacked(room, sheet.name, small);
      if (items) return items;
    }
  return undefined;
}

/** What else a sheet must say of itself: it is not to be taken for one of another print. */
const titleNotes = ({ shape }: Part, { printer, mirrored }: Layout): string[] => [
  ...(mirrored ? ['mirrored pattern'] : []),
  ...(shape.type === 'half' ? ['half pattern, to flip on the centre line'] : []),
  ...(printer ? [`for ${printer.name ?? 'a printer'} at ${printerScaleText(printer)}`] : []),
];

const SMALL_PITCH_MM = SMALL_MM * LINE_SPACING;

/** Small words, the last of them standing on a baseline. */
const smallWords = (lines: readonly string[], { x, y }: Point): Item[] =>
  lines.map((line, i) => words(line, { x, y: y + (lines.length - 1 - i) * SMALL_PITCH_MM }, SMALL_MM));

const NAME_HEIGHT_MM = SHEET_NAME_MM * 0.8;

const topLeft = ({ area }: OccupiedSpace, height: number): Point => ({ x: area.left, y: area.top - height });

function titleBeside(
  room: OccupiedSpace,
  sheet: string,
  part: string,
  small: readonly string[],
  most: number,
): Item[] | undefined {
  const indent = textWidth(sheet, SHEET_NAME_MM) + GAP_MM;
  const name = truncateToWidth(part, PART_NAME_MM, most);
  const width = indent + Math.max(textWidth(name, PART_NAME_MM), ...small.map(smallWidth));
  const below = (small.length - 1) * SMALL_PITCH_MM;
  const height = NAME_HEIGHT_MM + below;
  const box = reserveNear(room, topLeft(room, height), width, height);
  if (!box) return undefined;
  const [x, y] = [box.left + indent, box.bottom + 1];
  return [
    words(sheet, { x: box.left, y: y + below }, SHEET_NAME_MM),
    words(name, { x, y: y + below + 5.4 }, PART_NAME_MM),
    ...smallWords(small, { x, y }),
  ];
}

const smallWidth = (line: string): number => textWidth(line, SMALL_MM);

function titleStacked(room: OccupiedSpace, sheet: string, small: readonly string[]): Item[] | undefined {
  const width = Math.max(textWidth(sheet, SHEET_NAME_MM), ...small.map(smallWidth));
  const below = small.length * SMALL_PITCH_MM;
  const height = NAME_HEIGHT_MM + below;
  const box = reserveNear(room, topLeft(room, height), width, height);
  if (!box) return undefined;
  const [x, y] = [box.left, box.bottom + 1];
  return [words(sheet, { x, y: y + below }, SHEET_NAME_MM), ...smallWords(small, { x, y })];
}
