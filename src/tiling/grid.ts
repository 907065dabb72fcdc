import type { Box } from '../curves/curve.ts';
import { Fault } from '../units/fault.ts';
import type { Orientation } from './layout.ts';
import { sidesOf } from './margins.ts';
import { type PageFrame, type PageOptions, pageOf, windowOf } from './page-frame.ts';
import type { Paper } from './paper.ts';

/**
 * Equal windows laid over a pattern, each overlapping the next. The frame is the part's, turned as it
 * lies on the paper: mm, y up. Rows count from the top, columns from the left, both from 0.
 */
export interface Grid extends PageFrame {
  readonly orientation: Orientation;
  readonly overlap: number;
  readonly rows: number;
  readonly columns: number;
  /** The left top corner of the first window. */
  readonly left: number;
  readonly top: number;
}

export interface Place {
  readonly row: number;
  readonly column: number;
}

/** Half the printed width of the boldest line and a hair: no line lies on the edge of a window. */
export const LINE_PAD_MM = 1;

/**
 * More sheets than this are no longer taped true: at 200 seams of a third of a pencil line each the
 * error is larger than the kerf, and the pile is thicker than a printer's tray.
 */
export const MAX_SHEETS = 200;

/**
 * The 4 in scale bar (107 mm with its white) must fit both ways on every sheet, with room to shift its
 * ends clear of two lines that run straight across them, saw lines included (10 mm each).
 */
export const MIN_WINDOW_MM = 130;

export interface GridOptions extends PageOptions {
  readonly overlap: number;
}

/**
 * The fewest equal windows that hold a pattern's bounds, spare room shared evenly round it.
 *
 * @throws Fault `layout.no-room`, `layout.too-many-sheets`
 */
export function gridOver(bounds: Box, options: GridOptions, orientation: Orientation): Grid {
  const { paper, overlap } = options;
  const page = pageOf(options, orientation);
  checkRoom(page, options);
  const pattern = {
    width: bounds.right - bounds.left + 2 * LINE_PAD_MM,
    height: bounds.top - bounds.bottom + 2 * LINE_PAD_MM,
  };
  const { width, height } = windowOf(page);
  const [columns, spareAcross] = cover(pattern.width, width, overlap);
  const [rows, spareDown] = cover(pattern.height, height, overlap);
  if (Math.max(rows, columns) > MAX_SHEETS) throw tooManySheets(paper, Math.max(rows, columns));
  const left = bounds.left - LINE_PAD_MM - spareAcross / 2;
  const top = bounds.top + LINE_PAD_MM + spareDown / 2;
  return { ...page, orientation, overlap, rows, columns, left, top };
}

/** How many windows in a row hold an extent, and how much of them is spare. */
function cover(extent: number, window: number, overlap: number): [count: number, spare: number] {
  const pitch = window - overlap;
  // A rounding error more than a whole number of windows is no reason for another sheet.
  const count = Math.max(1, Math.ceil((extent - overlap) / pitch - 1e-9));
  return [count, count * pitch + overlap - extent];
}

function checkRoom(page: PageFrame, { paper, margin, overlap }: GridOptions): void {
  const { width, height } = windowOf(page);
  const window = Math.min(width, height);
  if (!(window >= Math.max(MIN_WINDOW_MM, 2 * overlap)))
    throw new Fault(
      'layout.no-room',
      (length) =>
        `margins of up to ${length(Math.max(...Object.values(sidesOf(margin))))} and an overlap of ${length(overlap)} leave no room on ${paper.name}: inside the margins it has ${length(Math.max(0, window))} one way. ` +
        `It needs ${length(Math.max(MIN_WINDOW_MM, 2 * overlap))}. Use smaller margins or overlap, or larger paper.`,
    );
}

export const tooManySheets = (paper: Paper, sheets: number): Fault =>
  new Fault(
    'layout.too-many-sheets',
    `the pattern takes ${sheets} or more sheets of ${paper.name}, and ${MAX_SHEETS} is the most that tapes up true. Use larger paper, such as a3, tabloid or a size of your own.`,
  );

const windowWidth = (grid: Grid): number => windowOf(grid).width;
const windowHeight = (grid: Grid): number => windowOf(grid).height;

/** Everything a sheet shows. */
export function windowAt(grid: Grid, { row, column }: Place): Box {
  const left = grid.left + column * (windowWidth(grid) - grid.overlap);
  const top = grid.top - row * (windowHeight(grid) - grid.overlap);
  return { left, top, right: left + windowWidth(grid), bottom: top - windowHeight(grid) };
}

/** A sheet's own share: up to the middle of each overlap, to the window's edge on the outside. */
export function cellAt(grid: Grid, { row, column }: Place): Box {
  const { left, right, bottom, top } = windowAt(grid, { row, column });
  const half = grid.overlap / 2;
  return {
    left: column > 0 ? left + half : left,
    right: column < grid.columns - 1 ? right - half : right,
    top: row > 0 ? top - half : top,
    bottom: row < grid.rows - 1 ? bottom + half : bottom,
  };
}

export const places = ({ rows, columns }: Grid): Place[] =>
  Array.from({ length: rows * columns }, (_, i) => ({ row: Math.floor(i / columns), column: i % columns }));

/** "A1" top left; after Z comes AA. */
export const sheetName = ({ row, column }: Place): string => `${rowLetters(row)}${column + 1}`;

function rowLetters(row: number): string {
  const last = String.fromCharCode(65 + (row % 26));
  return row < 26 ? last : rowLetters(Math.floor(row / 26) - 1) + last;
}
