import { type Affine, transformPoint } from '../../curves/geometry/affine.ts';
import { type Box, inflate } from '../../curves/geometry/bounds.ts';
import { type Chord, FLATTEN_MM } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { columnSpacing, type Grid, type GridCell, rowSpacing, type SheetFrame } from './grid.ts';

/** Lines turned as they lie on the paper: four numbers a chord, fast to run through many times. */
export interface TurnedChords {
  /** x and y of a chord's start, then of its end, and so on. */
  readonly ends: Float64Array;
  readonly bounds: Box;
}

/** The chords turned, with bounds that hold the curves behind them and some places besides. */
export function turnChords(chords: readonly Chord[], turn: Affine, also: readonly Point[]): TurnedChords {
  const ends = new Float64Array(4 * chords.length);
  let [left, right] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let [bottom, top] = [left, right];
  const widen = ({ x, y }: Point): void => {
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, y);
    top = Math.max(top, y);
  };
  chords.forEach(({ from, to }, i) => {
    const [a, b] = [transformPoint(turn, from), transformPoint(turn, to)];
    ends.set([a.x, a.y, b.x, b.y], 4 * i);
    widen(a);
    widen(b);
  });
  for (const place of also) widen(transformPoint(turn, place));
  return { ends, bounds: inflate({ left, right, bottom, top }, FLATTEN_MM) };
}

/**
 * How far beyond its own share a sheet still counts as holding the line, mm. Where a line passes the
 * corner of four sheets this keeps all of them, so the printed ones always meet along a seam.
 */
const CORNER_CLEARANCE_MM = 3;

/** The clearance, and how far a chord may lie from its curve. */
const PADDING_MM = CORNER_CLEARANCE_MM + FLATTEN_MM;

/** Where the lines run in one row of a grid. Stretches are pairs of numbers, sorted and apart. */
export interface RowSpans {
  /** The stretches of x whose sheets are printed: the lines in the row with the clearance all round. */
  readonly padded: readonly number[];
  /** The stretches of x that the lines themselves cover in the row. */
  readonly exact: readonly number[];
  /** Where lines pass on to the row below, sorted. */
  readonly crossings: readonly number[];
}

/**
 * The lines cut into the rows of a grid. One pass serves every place of the columns: which sheets of a
 * row are printed depends on its stretches of x alone.
 */
export function spansByRow({ ends }: TurnedChords, frame: SheetFrame, top: number, rows: number): RowSpans[] {
  const pitch = rowSpacing(frame);
  const first = top - frame.overlap / 2;
  const padded = emptyLists(rows);
  const exact = emptyLists(rows);
  const crossings = emptyLists(rows);
  const rowOf = (y: number): number => clampIndex(Math.floor((first - y) / pitch), rows);
  for (let i = 0; i < ends.length; i += 4) {
    const x0 = ends[i]!;
    const y0 = ends[i + 1]!;
    const x1 = ends[i + 2]!;
    const y1 = ends[i + 3]!;
    const low = Math.min(y0, y1);
    const high = Math.max(y0, y1);
    const last = rowOf(low - PADDING_MM);
    for (let row = rowOf(high + PADDING_MM); row <= last; row++) {
      const upper = row === 0 ? Number.POSITIVE_INFINITY : first - row * pitch;
      const lower = row === rows - 1 ? Number.NEGATIVE_INFINITY : first - (row + 1) * pitch;
      if (low <= upper + PADDING_MM && high >= lower - PADDING_MM)
        addSpan(padded[row]!, x0, y0, x1, y1, lower - PADDING_MM, upper + PADDING_MM, PADDING_MM);
      if (low > upper || high < lower) continue;
      addSpan(exact[row]!, x0, y0, x1, y1, lower, upper, 0);
      if (low < lower) crossings[row]!.push(y0 === y1 ? x0 : x0 + ((x1 - x0) * (lower - y0)) / (y1 - y0));
    }
  }
  return padded.map((stretches, row) => ({
    padded: mergeSpans(stretches),
    exact: mergeSpans(exact[row]!),
    crossings: crossings[row]!.sort((a, b) => a - b),
  }));
}

const emptyLists = (count: number): number[][] => Array.from({ length: count }, () => []);

/** Adds the stretch of x that a chord covers between two heights to a list, to its last one if they meet. */
function addSpan(
  list: number[],
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  lower: number,
  upper: number,
  reach: number,
): void {
  // An end inside keeps its own x: on a level chord both ends have the same y.
  const slope = (x1 - x0) / (y1 - y0);
  const a = y0 < lower ? x0 + slope * (lower - y0) : y0 > upper ? x0 + slope * (upper - y0) : x0;
  const b = y1 < lower ? x0 + slope * (lower - y0) : y1 > upper ? x0 + slope * (upper - y0) : x1;
  const from = Math.min(a, b) - reach;
  const to = Math.max(a, b) + reach;
  const end = list.length - 1;
  if (end > 0 && from <= list[end]! && to >= list[end - 1]!) {
    if (from < list[end - 1]!) list[end - 1] = from;
    if (to > list[end]!) list[end] = to;
  } else list.push(from, to);
}

/** The stretches of a list sorted in place (few, and nearly in order), those that meet made one. */
function mergeSpans(list: number[]): readonly number[] {
  for (let i = 2; i < list.length; i += 2) {
    const [from, to] = [list[i]!, list[i + 1]!];
    let k = i;
    for (; k > 0 && list[k - 2]! > from; k -= 2) {
      list[k] = list[k - 2]!;
      list[k + 1] = list[k - 1]!;
    }
    list[k] = from;
    list[k + 1] = to;
  }
  let end = 0;
  for (let i = 0; i < list.length; i += 2)
    if (end > 0 && list[i]! <= list[end - 1]!) list[end - 1] = Math.max(list[end - 1]!, list[i + 1]!);
    else {
      list[end++] = list[i]!;
      list[end++] = list[i + 1]!;
    }
  list.length = end;
  return list;
}

const clampIndex = (i: number, count: number): number => (i < 0 ? 0 : i >= count ? count - 1 : i);

/** Which of so many columns, the first window's left at `left`, a place belongs to. */
const columnIndex = (x: number, frame: SheetFrame, left: number, columns: number): number =>
  clampIndex(Math.floor((x - left - frame.overlap / 2) / columnSpacing(frame)), columns);

/** How many sheets are printed. */
export function countSheets(
  rows: readonly RowSpans[],
  frame: SheetFrame,
  left: number,
  columns: number,
): number {
  const first = left + frame.overlap / 2;
  const pitch = columnSpacing(frame);
  let count = 0;
  for (const { padded } of rows) {
    let last = -1;
    for (let i = 0; i < padded.length; i += 2) {
      const from = Math.max(last + 1, clampIndex(Math.floor((padded[i]! - first) / pitch), columns));
      const to = clampIndex(Math.floor((padded[i + 1]! - first) / pitch), columns);
      if (to >= from) count += to - from + 1;
      if (to > last) last = to;
    }
  }
  return count;
}

/** How many seams the lines cross: each is the side of two sheets, and counts once. */
export function countSeamCrossings(rows: readonly RowSpans[], grid: Grid): number {
  let count = 0;
  for (const { exact, crossings } of rows) {
    for (let i = 0; i < exact.length; i += 2)
      count += columnInGrid(grid, exact[i + 1]!) - columnInGrid(grid, exact[i]!);
    let last = -1;
    for (const x of crossings) {
      const column = columnInGrid(grid, x);
      if (column !== last) count++;
      last = column;
    }
  }
  return count;
}

const columnInGrid = (grid: Grid, x: number): number => columnIndex(x, grid, grid.left, grid.columns);

/** The printed places, row by row from the top, left to right. */
export function printedCells(laid: TurnedChords, grid: Grid): GridCell[] {
  return spansByRow(laid, grid, grid.top, grid.rows).flatMap(({ padded }, row) => {
    const columns = new Set<number>();
    for (let i = 0; i < padded.length; i += 2) {
      const to = columnInGrid(grid, padded[i + 1]!);
      for (let column = columnInGrid(grid, padded[i]!); column <= to; column++) columns.add(column);
    }
    return [...columns].map((column) => ({ row, column }));
  });
}
