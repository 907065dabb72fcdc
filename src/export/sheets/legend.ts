import { point } from '../../curves/geometry/point.ts';
import { isCuttingJoint } from '../../job/joints/joint-kinds.ts';
import { isOnEdge, OTHER_FACE } from '../../job/joints/joint-side.ts';
import { present } from '../../units/lists.ts';
import { printedLength } from '../drawing/dimensions.ts';
import { type Item, type LineStyle, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth } from '../drawing/text-width.ts';
import { type Block, placeNear } from '../labels/free-space.ts';
import { hasFaceMark } from './face-mark.ts';
import { finishedStyle, type LabelledSheet, type SheetContext } from './sheet-context.ts';
import { NOTE_MM } from './sheet-type.ts';

/** The type is smaller on a crowded sheet only. */
const SIZES_MM = [NOTE_MM, 3.2];
const COLUMN_GAP_MM = 4;
const SAMPLE_MM = 14;
const INDENT_MM = SAMPLE_MM + 3;
const WHITE_MM = 1.5;

/** A line with its meaning, or a meaning alone. */
type Entry = readonly [style: LineStyle | undefined, text: string];

/** In one column or two, as there is room; smaller where there is none. */
export function legend(sheet: LabelledSheet): Item[] {
  const entries = legendEntries(sheet);
  const { right, bottom } = sheet.space.area;
  for (const size of SIZES_MM)
    for (const columns of [1, 2]) {
      const block = legendBlock(entries, size, columns);
      const items = placeNear(sheet.space, { x: right - block.width, y: bottom }, block);
      if (items) return items;
    }
  return [];
}

function legendBlock(entries: readonly Entry[], size: number, columns: number): Block {
  const pitch = size * LINE_SPACING * 1.1;
  const rows = Math.ceil(entries.length / columns);
  const wide =
    COLUMN_GAP_MM + Math.max(...entries.map(([style, text]) => indentOf(style) + textWidth(text, size)));
  return {
    width: columns * wide - COLUMN_GAP_MM,
    height: rows * pitch + 2 * WHITE_MM,
    draw: (box) =>
      entries.flatMap(([style, text], i) => {
        const left = box.left + Math.floor(i / rows) * wide;
        const y = box.top - WHITE_MM - pitch * ((i % rows) + 0.75);
        return [
          ...(style ? [polyline(style, [point(left, y + 1), point(left + SAMPLE_MM, y + 1)])] : []),
          words(text, { x: left + indentOf(style), y }, size),
        ];
      }),
  };
}

const indentOf = (style: LineStyle | undefined): number => (style === undefined ? 0 : INDENT_MM);

function legendEntries({ part, sheet, dimensions, notes }: SheetContext): Entry[] {
  const cutting = dimensions.joints.filter(isCuttingJoint);
  return present<Entry>(
    [finishedStyle(notes), notes?.line ?? 'finished line'],
    notes && ['parallel', notes.referenceCurve.label],
    part.sawAllowance > 0 && [
      'sheet-saw',
      `saw line, ${printedLength(part.sawAllowance, part.rule)} outside`,
    ],
    part.shape.type === 'half' && ['centre', 'center line: flip the pattern here'],
    cutting.some(({ face }) => face === undefined) && ['joint', 'joint on the reference face'],
    dimensions.joints.some(({ face }) => face === OTHER_FACE) && ['behind', 'on the other face'],
    cutting.some(isOnEdge) && ['mark', 'tick across an edge: a joint on the edge'],
    dimensions.foldTabs.length > 0 && ['fold', 'fold line of a fold tab'],
    hasFaceMark(part) && ['mark', 'loop: reference face, V: reference edge'],
    Object.keys(sheet.neighbours).length > 0 && ['trim', 'cut only where it says “cut”'],
    [undefined, 'at: station. Other figures: offsets.'],
  );
}
