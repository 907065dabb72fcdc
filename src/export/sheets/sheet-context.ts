import { invert, transformPoint } from '../../curves/geometry/affine.ts';
import { type Box, inflate, pathBounds } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten, segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Part } from '../../part/part.ts';
import { linesToCut } from '../../tiling/grid/lines-to-tile.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import type { PatternNotes } from '../cover/pattern-notes.ts';
import type { Dimensions } from '../drawing/dimensions.ts';

/** What all the sheets of a pattern are composed from. */
export interface Pattern {
  readonly part: Part;
  readonly layout: Layout;
  readonly dimensions: Dimensions;
  readonly lines: PatternLines;
  readonly notes?: PatternNotes;
}

/** All that one sheet is composed from. */
export interface SheetContext {
  readonly part: Part;
  readonly layout: Layout;
  readonly sheet: Sheet;
  readonly dimensions: Dimensions;
  /** The lines to cut as they run over this sheet, mm on the sheet. */
  readonly lines: readonly Chord[];
  readonly notes?: PatternNotes;
}

/** The lines to cut, worked out once for all the sheets, mm on the part. */
export type PatternLines = readonly Chord[];

/** How far those chords may lie from the lines, mm: a fraction of the white that is kept from them. */
export const SHEET_CHORD_MM = 0.1;

export const patternLines = (part: Part): PatternLines => flatten(linesToCut(part), SHEET_CHORD_MM);

/** What every mark of one sheet needs to know of the pattern and of the sheet. */
export function sheetContext(
  { part, layout, dimensions, lines, notes }: Pattern,
  sheet: Sheet,
): SheetContext {
  const shown = boxOnPart(sheet);
  const near = lines.filter(
    ({ from, to }) =>
      Math.max(from.x, to.x) >= shown.left &&
      Math.min(from.x, to.x) <= shown.right &&
      Math.max(from.y, to.y) >= shown.bottom &&
      Math.min(from.y, to.y) <= shown.top,
  );
  const onPaper = near
    .map(({ from, to }) => ({
      from: transformPoint(sheet.toSheet, from),
      to: transformPoint(sheet.toSheet, to),
    }))
    .filter((chord) => segmentIntersectsBox(chord, sheet.window));
  return { part, layout, sheet, dimensions, lines: onPaper, ...(notes && { notes }) };
}

/** Round all that a sheet shows, mm on the part, a little larger. */
function boxOnPart({ toSheet, window }: Sheet): Box {
  const { left, right, bottom, top } = inflate(window, 1);
  const back = invert(toSheet);
  return pathBounds([
    {
      type: 'line',
      from: transformPoint(back, point(left, bottom)),
      to: transformPoint(back, point(right, top)),
    },
    {
      type: 'line',
      from: transformPoint(back, point(left, top)),
      to: transformPoint(back, point(right, bottom)),
    },
  ]);
}

export const onSheet = ({ sheet }: SheetContext, at: Point): Point => transformPoint(sheet.toSheet, at);

export const pathOnSheet = ({ sheet }: SheetContext, path: readonly Segment[]): Segment[] =>
  transformPath(path, sheet.toSheet);

/** Which way offsets grow on the sheet, a unit vector. */
export const offsetDirection = ({ sheet }: SheetContext): Point => ({
  x: sheet.toSheet[2],
  y: sheet.toSheet[3],
});

export const boxContains = (box: Box, { x, y }: Point): boolean =>
  x >= box.left && x <= box.right && y >= box.bottom && y <= box.top;
