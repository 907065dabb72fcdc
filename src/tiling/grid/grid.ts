import type { Box } from '../../curves/geometry/bounds.ts';
import { Fault } from '../../units/fault.ts';
import { marginSides } from '../paper/margins.ts';
import { type PageFrame, type PageOptions, pageFrame, windowOf } from '../paper/page-frame.ts';
import { type Orientation, paperTitle } from '../paper/paper-sizes.ts';

/** A sheet as it lies: what of it shows the pattern, and how far it overlaps the next, mm. */
export interface SheetFrame extends PageFrame {
  readonly orientation: Orientation;
  readonly overlap: number;
}

/** Windows that overlap, in the part's turned coordinates: mm, y up. Rows from the top, columns from the left. */
export interface Grid extends SheetFrame {
  readonly rows: number;
  readonly columns: number;
  readonly left: number;
  readonly top: number;
}

export interface GridCell {
  readonly row: number;
  readonly column: number;
}

/** Half the printed width of the boldest line and a hair: no line lies on the edge of a window. */
export const LINE_PAD_MM = 1;

/** The 4 in scale bar (107 mm with its white) fits both ways with room to shift clear of two lines (10 mm each). */
export const MIN_WINDOW_MM = 130;

/** @throws Fault `layout.no-room` */
export function sheetFrame(
  options: PageOptions & { readonly overlap: number },
  orientation: Orientation,
): SheetFrame {
  const { paper, margin, overlap } = options;
  const page = pageFrame(options, orientation);
  const { width, height } = windowOf(page);
  const window = Math.min(width, height);
  const least = Math.max(MIN_WINDOW_MM, 2 * overlap);
  if (window >= least) return { ...page, orientation, overlap };
  throw new Fault(
    'layout.no-room',
    (length) =>
      `with margins of up to ${length(Math.max(...Object.values(marginSides(margin))))}, ${paperTitle(paper)} leaves ${length(Math.max(0, window))} on its shorter side. ` +
      `An overlap of ${length(overlap)} needs ${length(least)} there. Use smaller margins, a smaller overlap or larger paper.`,
    '--paper',
  );
}

/** How far apart one window and the next begin, mm. */
export const columnSpacing = (frame: SheetFrame): number => windowOf(frame).width - frame.overlap;
export const rowSpacing = (frame: SheetFrame): number => windowOf(frame).height - frame.overlap;

/** The fewest windows in a row that hold an extent. */
export function minWindows(extent: number, pitch: number, overlap: number): number {
  // The last term forgives a rounding error, which must not take another sheet.
  return Math.max(1, Math.ceil((extent - overlap) / pitch - 1e-9));
}

export function windowOfCell(grid: Grid, { row, column }: GridCell): Box {
  const left = grid.left + column * columnSpacing(grid);
  const top = grid.top - row * rowSpacing(grid);
  const { width, height } = windowOf(grid);
  return { left, top, right: left + width, bottom: top - height };
}

/** A sheet's own share: up to the middle of each overlap, to the window's edge on the outside. */
export function trimmedCell(grid: Grid, cell: GridCell): Box {
  const { row, column } = cell;
  const { left, right, bottom, top } = windowOfCell(grid, cell);
  const half = grid.overlap / 2;
  return {
    left: column > 0 ? left + half : left,
    right: column < grid.columns - 1 ? right - half : right,
    top: row > 0 ? top - half : top,
    bottom: row < grid.rows - 1 ? bottom + half : bottom,
  };
}

/** "1A" top left; after Z comes AA. The row comes first, because a name such as A4 is a paper size. */
export const sheetName = ({ row, column }: GridCell): string => `${row + 1}${columnLetters(column)}`;

function columnLetters(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : columnLetters(Math.floor(column / 26) - 1) + last;
}
