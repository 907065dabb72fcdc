import { type Box, boundsOf } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { FoldTab } from '../../part/ends/fold-tabs.ts';
import { type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth } from '../drawing/text-width.ts';
import { type OccupiedSpace, reserveBeside, reserveNear } from '../labels/free-space.ts';
import { boxContains, onSheet, type SheetContext } from './sheet-context.ts';

const WORDS_MM = 3.2;
const FOLD_WORDS = ['fold over', 'the edge'];

/** Beside a tilted end, what is folded over each edge: its fold, the cut's line down the edge, its outline. */
export const foldTabStrokes = (view: SheetContext): Stroke[] =>
  view.dimensions.foldTabs.flatMap(({ fold, cut, outline }) => {
    const at = (points: readonly Point[]): Point[] => points.map((one) => onSheet(view, one));
    return [polyline('fold', at(fold)), polyline('fold', at(outline.slice(1))), polyline('cut', at(cut))];
  });

export const foldTabChords = (view: SheetContext): Chord[] =>
  foldTabStrokes(view).flatMap(({ path }) => flatten(path));

/** On the sheet that holds a strip's middle: inside it where there is room, else beside it. */
export const foldTabLabels = (view: SheetContext, room: OccupiedSpace): Item[] =>
  view.dimensions.foldTabs.flatMap((strip) => {
    const box = tabBoxOnSheet(view, strip);
    const middle = point((box.left + box.right) / 2, (box.bottom + box.top) / 2);
    return boxContains(view.sheet.cell, middle) ? placeFoldWords(room, box, middle) : [];
  });

const tabBoxOnSheet = (view: SheetContext, { outline }: FoldTab): Box =>
  boundsOf(outline.map((corner) => onSheet(view, corner)));

function placeFoldWords(room: OccupiedSpace, strip: Box, middle: Point): Item[] {
  for (const lines of [[FOLD_WORDS.join(' ')], FOLD_WORDS]) {
    const width = Math.max(...lines.map((text) => textWidth(text, WORDS_MM))) + 1;
    const height = lines.length * LINE_SPACING * WORDS_MM;
    const inside: OccupiedSpace = { area: intersectBoxes(strip, room.area), occupied: room.occupied };
    const box = reserveNear(inside, point(middle.x - width / 2, middle.y - height / 2), width, height);
    if (box) return centredLines(lines, box);
  }
  const text = FOLD_WORDS.join(' ');
  const box = reserveBeside(room, strip, textWidth(text, WORDS_MM) + 1, LINE_SPACING * WORDS_MM);
  return box ? centredLines([text], box) : [];
}

const intersectBoxes = (a: Box, b: Box): Box => ({
  left: Math.max(a.left, b.left),
  right: Math.min(a.right, b.right),
  bottom: Math.max(a.bottom, b.bottom),
  top: Math.min(a.top, b.top),
});

const centredLines = (lines: readonly string[], box: Box): Item[] =>
  lines.map((text, i) =>
    words(
      text,
      point((box.left + box.right) / 2, box.top - WORDS_MM * (0.95 + LINE_SPACING * i)),
      WORDS_MM,
      'middle',
    ),
  );
