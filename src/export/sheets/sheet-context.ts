import { apply, inverse } from '../../curves/geometry/affine.ts';
import { type Box, grown, pathBox } from '../../curves/geometry/bounds.ts';
import { type Chord, chordsOf, passes } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { mapPath } from '../../curves/geometry/transform.ts';
import type { Part } from '../../part/part.ts';
import { linesToCut } from '../../tiling/grid/lines-to-tile.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import type { PatternNotes } from '../cover/pattern-notes.ts';
import type { SettingOut } from '../drawing/dimensions.ts';

/** What all the sheets of a pattern are composed from. */
export interface Pattern {
  readonly part: Part;
  readonly layout: Layout;
  readonly setting: SettingOut;
  readonly lines: PatternLines;
  readonly notes?: PatternNotes;
}

/** All that one sheet is composed from. */
export interface SheetView {
  readonly part: Part;
  readonly layout: Layout;
  readonly sheet: Sheet;
  readonly setting: SettingOut;
  /** The lines to cut as they run over this sheet, mm on the sheet. */
  readonly lines: readonly Chord[];
  readonly notes?: PatternNotes;
}

/** The lines to cut, worked out once for all the sheets, mm on the part. */
export type PatternLines = readonly Chord[];

/** How far those chords may lie from the lines, mm: a fraction of the white that is kept from them. */
export const VIEW_CHORD_MM = 0.1;

export const patternLines = (part: Part): PatternLines => chordsOf(linesToCut(part), VIEW_CHORD_MM);

export function sheetView({ part, layout, setting, lines, notes }: Pattern, sheet: Sheet): SheetView {
  const shown = boxOnPart(sheet);
  const near = lines.filter(
    ({ from, to }) =>
      Math.max(from.x, to.x) >= shown.left &&
      Math.min(from.x, to.x) <= shown.right &&
      Math.max(from.y, to.y) >= shown.bottom &&
      Math.min(from.y, to.y) <= shown.top,
  );
  const onPaper = near
    .map(({ from, to }) => ({ from: apply(sheet.toSheet, from), to: apply(sheet.toSheet, to) }))
    .filter((chord) => passes(chord, sheet.window));
  return { part, layout, sheet, setting, lines: onPaper, ...(notes && { notes }) };
}

/** Round all that a sheet shows, mm on the part, a little larger. */
function boxOnPart({ toSheet, window }: Sheet): Box {
  const { left, right, bottom, top } = grown(window, 1);
  const back = inverse(toSheet);
  return pathBox([
    { type: 'line', from: apply(back, point(left, bottom)), to: apply(back, point(right, top)) },
    { type: 'line', from: apply(back, point(left, top)), to: apply(back, point(right, bottom)) },
  ]);
}

export const onSheet = ({ sheet }: SheetView, at: Point): Point => apply(sheet.toSheet, at);

export const pathOnSheet = ({ sheet }: SheetView, path: readonly Segment[]): Segment[] =>
  mapPath(path, sheet.toSheet);

/** Which way offsets grow on the sheet, a unit vector. */
export const offsetsGrow = ({ sheet }: SheetView): Point => ({ x: sheet.toSheet[2], y: sheet.toSheet[3] });

export const holds = (box: Box, { x, y }: Point): boolean =>
  x >= box.left && x <= box.right && y >= box.bottom && y <= box.top;
