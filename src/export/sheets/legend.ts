import { point } from '../../curves/geometry/point.ts';
import { isCuttingJoint } from '../../job/joints/joint-kinds.ts';
import { present } from '../../units/lists.ts';
import { printedLength } from '../drawing/dimensions.ts';
import { type Item, type LineStyle, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth } from '../drawing/text-width.ts';
import { type Block, placeNear } from '../labels/free-space.ts';
import { hasFaceMark } from './face-mark.ts';
import type { LabelledSheet, SheetContext } from './sheet-context.ts';

const WORDS_MM = 3.2;
const PITCH_MM = WORDS_MM * LINE_SPACING * 1.1;
const SAMPLE_MM = 14;
const INDENT_MM = SAMPLE_MM + 3;
const WHITE_MM = 1.5;

type Entry = readonly [style: LineStyle, text: string];

export function legend(sheet: LabelledSheet): Item[] {
  const block = legendBlock(legendEntries(sheet));
  const { right, bottom } = sheet.space.area;
  return placeNear(sheet.space, { x: right - block.width, y: bottom }, block) ?? [];
}

const legendBlock = (entries: readonly Entry[]): Block => ({
  width: INDENT_MM + Math.max(...entries.map(([, text]) => textWidth(text, WORDS_MM))),
  height: entries.length * PITCH_MM + 2 * WHITE_MM,
  draw: ({ left, top }) =>
    entries.flatMap(([style, text], i) => {
      const y = top - WHITE_MM - PITCH_MM * (i + 0.75);
      return [
        polyline(style, [point(left, y + 1), point(left + SAMPLE_MM, y + 1)]),
        words(text, { x: left + INDENT_MM, y }, WORDS_MM),
      ];
    }),
});

function legendEntries({ part, sheet, dimensions, notes }: SheetContext): Entry[] {
  return present<Entry>(
    ['cut', notes?.line ?? 'finished line'],
    notes && ['parallel', notes.referenceCurve.label],
    part.sawAllowance > 0 && ['saw', `saw line, ${printedLength(part.sawAllowance, part.rule)} outside`],
    part.shape.type === 'half' && ['centre', 'center line: flip the pattern here'],
    dimensions.joints.some(isCuttingJoint) && ['joint', 'joint on the reference face'],
    dimensions.foldTabs.length > 0 && ['fold', 'fold line of a fold tab'],
    hasFaceMark(part) && ['mark', 'loop: reference face, V: reference edge'],
    Object.keys(sheet.neighbours).length > 0 && ['trim', 'edge of a cut sheet'],
  );
}
