import { invert, transformPoint } from '../../curves/geometry/affine.ts';
import { type Box, boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten, segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { linesToCut } from '../../tiling/grid/lines-to-tile.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import type { PatternNotes } from '../cover/pattern-notes.ts';
import type { Dimensions } from '../drawing/dimensions.ts';
import { boxCorners } from '../drawing/drawing.ts';
import { type PartView, partView } from '../drawing/part-view.ts';
import type { OccupiedSpace } from '../labels/free-space.ts';
import type { LabelSpace } from '../labels/place-labels.ts';

export interface Pattern {
  readonly part: Part;
  readonly layout: Layout;
  readonly dimensions: Dimensions;
  /** With the dashed reference curve, mm on the part. */
  readonly lines: readonly Chord[];
  readonly notes?: PatternNotes;
}

/** Its lines are those that run over the sheet, mm on the sheet. */
export interface SheetContext extends Pattern, PartView {
  readonly sheet: Sheet;
}

export interface LabelledSheet extends SheetContext {
  readonly space: LabelSpace;
  /** What labels name, mm on the sheet. */
  readonly stationAnchors: readonly Box[];
  readonly jointAnchors: readonly Box[];
}

/** How far the chords of a pattern may lie from its lines, mm: a fraction of the white round them. */
export const SHEET_CHORD_MM = 0.1;

export function patternOf(part: Part, layout: Layout, dimensions: Dimensions, notes?: PatternNotes): Pattern {
  const path = [...linesToCut(part), ...(notes?.referenceCurve.path ?? [])];
  const lines = flatten(path, SHEET_CHORD_MM);
  return { part, layout, dimensions, lines, ...(notes && { notes }) };
}

/** A sheet, with the lines of the pattern that run over it. */
export function sheetContext(pattern: Pattern, sheet: Sheet): SheetContext {
  const shown = boxOnPart(sheet);
  const lines = pattern.lines
    .filter(
      ({ from, to }) =>
        Math.max(from.x, to.x) >= shown.left &&
        Math.min(from.x, to.x) <= shown.right &&
        Math.max(from.y, to.y) >= shown.bottom &&
        Math.min(from.y, to.y) <= shown.top,
    )
    .map(({ from, to }) => ({
      from: transformPoint(sheet.toSheet, from),
      to: transformPoint(sheet.toSheet, to),
    }))
    .filter((chord) => segmentIntersectsBox(chord, sheet.window));
  return { ...pattern, ...partView(pattern.part, sheet.toSheet), sheet, lines };
}

function boxOnPart({ toSheet, window }: Sheet): Box {
  return boundsOf(boxCorners(inflate(window, 1)).map((corner) => transformPoint(invert(toSheet), corner)));
}

/** Which way offsets grow on the sheet, a unit vector. */
export const offsetDirection = ({ sheet }: SheetContext): Point => ({
  x: sheet.toSheet[2],
  y: sheet.toSheet[3],
});

export const boxContains = (box: Box, { x, y }: Point): boolean =>
  x >= box.left && x <= box.right && y >= box.bottom && y <= box.top;

/** With the overlaps that are cut away or covered. */
export const windowSpace = ({ sheet, space }: LabelledSheet): OccupiedSpace => ({
  area: inflate(sheet.window, -1),
  occupied: space.occupied,
});
