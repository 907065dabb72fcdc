import { invert, transformPoint } from '../../curves/geometry/affine.ts';
import { type Box, boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import { type Chord, flatten, segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { woodTest } from '../../part/outline/wood-test.ts';
import type { Part } from '../../part/part.ts';
import { linesToCut } from '../../tiling/grid/lines-to-tile.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import type { PatternNotes } from '../cover/pattern-notes.ts';
import type { Dimensions } from '../drawing/dimensions.ts';
import { boxCorners, type LineStyle } from '../drawing/drawing.ts';
import { type PartView, partView } from '../drawing/part-view.ts';
import type { OccupiedSpace } from '../labels/free-space.ts';
import type { LabelSpace } from '../labels/place-labels.ts';

export interface Pattern {
  readonly part: Part;
  readonly layout: Layout;
  readonly dimensions: Dimensions;
  /** With the dashed reference curve, mm on the part. */
  readonly lines: readonly Chord[];
  /** Whether a place is in the wood, mm on the part. */
  readonly isInWood: (place: Point) => boolean;
  readonly notes?: PatternNotes;
}

export interface SheetContext extends Pattern, PartView {
  readonly sheet: Sheet;
}

export interface LabelledSheet extends SheetContext {
  readonly space: LabelSpace;
  readonly stationAnchors: readonly Box[];
  readonly jointAnchors: readonly Box[];
}

/** A form is told from a part at a glance. */
export const finishedStyle = (notes: PatternNotes | undefined): LineStyle =>
  notes?.sides ? 'form-face' : 'sheet-cut';

/** How far the chords of a pattern may lie from its lines, mm: a fraction of the white round them. */
export const SHEET_CHORD_MM = 0.1;

export function patternOf(part: Part, layout: Layout, dimensions: Dimensions, notes?: PatternNotes): Pattern {
  const path = [...linesToCut(part), ...(notes?.referenceCurve.path ?? [])];
  const lines = flatten(path, SHEET_CHORD_MM);
  return { part, layout, dimensions, lines, isInWood: woodTest(part), ...(notes && { notes }) };
}

/** A sheet, with the lines of the pattern that run over it. */
export function sheetContext(pattern: Pattern, sheet: Sheet): SheetContext {
  const view = partView(pattern.part, sheet.toSheet);
  const shown = boxOnPart(sheet);
  const lines = pattern.lines
    .filter(
      ({ from, to }) =>
        Math.max(from.x, to.x) >= shown.left &&
        Math.min(from.x, to.x) <= shown.right &&
        Math.max(from.y, to.y) >= shown.bottom &&
        Math.min(from.y, to.y) <= shown.top,
    )
    .map(({ from, to }) => ({ from: view.at(from), to: view.at(to) }))
    .filter((chord) => segmentIntersectsBox(chord, sheet.window));
  return { ...pattern, ...view, sheet, lines };
}

function boxOnPart({ toSheet, window }: Sheet): Box {
  return boundsOf(boxCorners(inflate(window, 1)).map((corner) => transformPoint(invert(toSheet), corner)));
}

export const offsetDirection = ({ sheet }: SheetContext): Point => point(sheet.toSheet[2], sheet.toSheet[3]);

export const boxContains = (box: Box, { x, y }: Point): boolean =>
  x >= box.left && x <= box.right && y >= box.bottom && y <= box.top;

/** With the overlaps that are cut away or covered. */
export const windowSpace = ({ sheet, space: { occupied } }: LabelledSheet): OccupiedSpace => {
  return { area: inflate(sheet.window, -1), occupied };
};
