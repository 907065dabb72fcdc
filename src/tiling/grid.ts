import type { Box } from '../curves/curve.ts';
import { Fault } from '../units/fault.ts';
import type { Orientation } from './layout.ts';
import type { Paper } from './paper.ts';

/**
 * Equal windows laid over a pattern, each overlapping the next. The frame is the part's, turned as it
 * lies on the paper: mm, y up. Rows count from the top, columns from the left, both from 0.
 */
export interface Grid {
  readonly orientation: Orientation;
  readonly size: { readonly width: number; readonly height: number };
  readonly margin: number;
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
const LINE_PAD_MM = 1;

/**
 * More sheets than this are no longer taped true: at 200 seams of a third of a pencil line each the
 * error is larger than the kerf, and the pile is thicker than a printer's tray.
 */
export const MAX_SHEETS = 200;

/**
 * The 4 in scale bar (107 mm with its white) must fit both ways on every sheet, with room to shift its
 * ends clear of two lines that run straight across them, saw lines included (10 mm each).
 */
const MIN_WINDOW_MM = 130;

export interface GridOptions {
  readonly paper: Paper;
  readonly margin: number;
  readonly overlap: number;
}

/**
 * The fewest equal windows that hold a pattern's bounds, spare room shared evenly round it.
 *
 * @throws Fault `layout.no-room`, `layout.too-many-sheets`
 */
export function gridOver(bounds: Box, options: GridOptions, orientation: Orientation): Grid {
  const { paper, margin, overlap } = options;
  const size =
    orientation === 'upright'
      ? { width: paper.width, height: paper.height }
      : { width: paper.height, height: paper.width };
  const [across, down] = [size.width - 2 * margin, size.height - 2 * margin];
  checkRoom(Math.min(across, down), options);
  const [columns, spareAcross] = cover(bounds.right - bounds.left + 2 * LINE_PAD_MM, across, overlap);
  const [rows, spareDown] = cover(bounds.top - bounds.bottom + 2 * LINE_PAD_MM, down, overlap);
  if (Math.max(rows, columns) > MAX_SHEETS) throw tooManySheets(paper, Math.max(rows, columns));
  const left = bounds.left - LINE_PAD_MM - spareAcross / 2;
  const top = bounds.top + LINE_PAD_MM + spareDown / 2;
  return { orientation, size, margin, overlap, rows, columns, left, top };
}

/** How many windows in a row hold an extent, and how much of them is spare. */
function cover(extent: number, window: number, overlap: number): [count: number, spare: number] {
  const pitch = window - overlap;
  // A rounding error more than a whole number of windows is no reason for another sheet.
  const count = Math.max(1, Math.ceil((extent - overlap) / pitch - 1e-9));
  return [count, count * pitch + overlap - extent];
}

function checkRoom(window: number, { paper, margin, overlap }: GridOptions): void {
  if (window < MIN_WINDOW_MM || window - overlap < overlap)
    throw new Fault(
      'layout.no-room',
      (length) =>
        `margins of ${length(margin)} and an overlap of ${length(overlap)} leave no room on ${paper.name}: inside the margins its short side has ${length(Math.max(0, window))}. ` +
        `It needs ${length(Math.max(MIN_WINDOW_MM, 2 * overlap))}. Use a smaller margin or overlap, or larger paper.`,
    );
}

export const tooManySheets = (paper: Paper, sheets: number): Fault =>
  new Fault(
    'layout.too-many-sheets',
    `the pattern takes ${sheets} or more sheets of ${paper.name}, and ${MAX_SHEETS} is the most that tapes up true. Use larger paper, such as a3, tabloid or a size of your own.`,
  );

const windowWidth = ({ size, margin }: Grid): number => size.width - 2 * margin;
const windowHeight = ({ size, margin }: Grid): number => size.height - 2 * margin;

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
