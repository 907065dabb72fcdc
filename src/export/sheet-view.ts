import type { Box } from '../curves/curve.ts';
import type { Segment } from '../curves/piece.ts';
import type { Point } from '../curves/point.ts';
import { mapSegment } from '../curves/segment.ts';
import type { Part } from '../part/part.ts';
import { apply } from '../tiling/affine.ts';
import { type Chord, chordsOf, passes } from '../tiling/chords.ts';
import { linesToCut } from '../tiling/lay-out.ts';
import type { Layout, Sheet } from '../tiling/layout.ts';
import type { SettingOut } from './setting-out.ts';

/** All that one sheet is composed from. */
export interface SheetView {
  readonly part: Part;
  readonly layout: Layout;
  readonly sheet: Sheet;
  readonly setting: SettingOut;
  /** The lines to cut as they run over this sheet, mm on the sheet. */
  readonly lines: readonly Chord[];
}

export function sheetView(part: Part, layout: Layout, sheet: Sheet, setting: SettingOut): SheetView {
  const lines = chordsOf(linesToCut(part))
    .map(({ from, to }) => ({ from: apply(sheet.toSheet, from), to: apply(sheet.toSheet, to) }))
    .filter((chord) => passes(chord, sheet.window));
  return { part, layout, sheet, setting, lines };
}

export const onSheet = ({ sheet }: SheetView, at: Point): Point => apply(sheet.toSheet, at);

export const pathOnSheet = ({ sheet }: SheetView, path: readonly Segment[]): Segment[] =>
  path.map((segment) => mapSegment(segment, sheet.toSheet));

/** Which way offsets grow on the sheet, a unit vector. */
export const offsetsGrow = ({ sheet }: SheetView): Point => ({ x: sheet.toSheet[2], y: sheet.toSheet[3] });

export const holds = (box: Box, { x, y }: Point): boolean =>
  x >= box.left && x <= box.right && y >= box.bottom && y <= box.top;
