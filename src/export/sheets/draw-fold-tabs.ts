import { type Box, boxOf } from '../../curves/geometry/bounds.ts';
import { type Chord, chordsOf } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { EndStrip } from '../../part/ends/fold-tabs.ts';
import { type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { LEADING, textWidth } from '../drawing/text-width.ts';
import { type Room, takeBeside, takeNear } from '../labels/free-space.ts';
import { holds, onSheet, type SheetView } from './sheet-context.ts';

const WORDS_MM = 3.2;
const FOLD_WORDS = ['fold over', 'the edge'];

/** Beside a tilted end, what is folded over each edge: its fold, the cut's line down the edge, its outline. */
export const foldStrips = (view: SheetView): Stroke[] =>
  view.setting.strips.flatMap(({ fold, cut, outline }) => {
    const at = (points: readonly Point[]): Point[] => points.map((one) => onSheet(view, one));
    return [polyline('fold', at(fold)), polyline('fold', at(outline.slice(1))), polyline('cut', at(cut))];
  });

export const foldChords = (view: SheetView): Chord[] =>
  foldStrips(view).flatMap(({ path }) => chordsOf(path));

/** On the sheet that holds a strip's middle: inside it where there is room, else beside it. */
export const foldWords = (view: SheetView, room: Room): Item[] =>
  view.setting.strips.flatMap((strip) => {
    const box = boxOnSheet(view, strip);
    const middle = point((box.left + box.right) / 2, (box.bottom + box.top) / 2);
    return holds(view.sheet.cell, middle) ? wordsIn(room, box, middle) : [];
  });

const boxOnSheet = (view: SheetView, { outline }: EndStrip): Box =>
  boxOf(outline.map((corner) => onSheet(view, corner)));

function wordsIn(room: Room, strip: Box, middle: Point): Item[] {
  for (const lines of [[FOLD_WORDS.join(' ')], FOLD_WORDS]) {
    const width = Math.max(...lines.map((text) => textWidth(text, WORDS_MM))) + 1;
    const height = lines.length * LEADING * WORDS_MM;
    const inside: Room = { area: within(strip, room.area), taken: room.taken };
    const box = takeNear(inside, point(middle.x - width / 2, middle.y - height / 2), width, height);
    if (box) return set(lines, box);
  }
  const text = FOLD_WORDS.join(' ');
  const box = takeBeside(room, strip, textWidth(text, WORDS_MM) + 1, LEADING * WORDS_MM);
  return box ? set([text], box) : [];
}

const within = (a: Box, b: Box): Box => ({
  left: Math.max(a.left, b.left),
  right: Math.min(a.right, b.right),
  bottom: Math.max(a.bottom, b.bottom),
  top: Math.min(a.top, b.top),
});

const set = (lines: readonly string[], box: Box): Item[] =>
  lines.map((text, i) =>
    words(
      text,
      point((box.left + box.right) / 2, box.top - WORDS_MM * (0.95 + LEADING * i)),
      WORDS_MM,
      'middle',
    ),
  );
