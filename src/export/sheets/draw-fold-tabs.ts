import { type Box, boundsOf } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { type Item, polyline, type Stroke } from '../drawing/drawing.ts';
import { type Block, boxesBeside, centreOf, nearestFree, type OccupiedSpace } from '../labels/free-space.ts';
import { type Label, placeLabels, SHEET_LABEL, textBlock } from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, type SheetContext } from './sheet-context.ts';
import { NOTE_MM } from './sheet-type.ts';

const WORDS = ['fold over', 'the edge'];

export const foldTabStrokes = (context: SheetContext): Stroke[] =>
  context.dimensions.foldTabs.flatMap(({ fold, cut, outline }) => {
    const draw = (style: 'fold' | 'cut', line: readonly Point[]): Stroke =>
      polyline(style, line.map(context.at));
    return [draw('fold', fold), draw('fold', outline.slice(1)), draw('cut', cut)];
  });

/** Inside the tab where there is room, else beside it. */
export function foldTabLabels(sheet: LabelledSheet): Item[] {
  const style = { ...SHEET_LABEL, size: NOTE_MM, baseline: 0.95 };
  const [oneLine, twoLines] = [textBlock([WORDS.join(' ')], style), textBlock(WORDS, style)];
  const tabs = sheet.dimensions.foldTabs
    .map(({ outline }) => boundsOf(outline.map(sheet.at)))
    .filter((tab) => boxContains(sheet.sheet.cell, centreOf(tab)));
  return tabs.flatMap((anchor) => {
    const name = (blocks: readonly Block[], candidates: Label['candidates']): Item[] =>
      placeLabels(sheet.space, [{ anchor, competing: [], blocks, candidates }]);
    const inside = name([oneLine, twoLines], (block) => insideTab(sheet.space, anchor, block));
    if (inside.length > 0) return inside;
    return name([oneLine], ({ width, height }) => boxesBeside(anchor, width, height).map((box) => ({ box })));
  });
}

function insideTab(space: OccupiedSpace, tab: Box, { width, height }: Block) {
  const area = intersectBoxes(tab, space.area);
  const { x, y } = centreOf(tab);
  const wished = { x: x - width / 2, y: y - height / 2 };
  const box = nearestFree({ area, occupied: space.occupied }, wished, width, height);
  return box ? [{ box }] : [];
}

const intersectBoxes = (a: Box, b: Box): Box => ({
  left: Math.max(a.left, b.left),
  right: Math.min(a.right, b.right),
  bottom: Math.max(a.bottom, b.bottom),
  top: Math.min(a.top, b.top),
});
