import { type Affine, transformPoint } from '../../curves/geometry/affine.ts';
import { type Box, boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import { type Chord, FLATTEN_MM } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { columnSpacing, type Grid, type GridCell, rowSpacing, type SheetFrame } from './grid.ts';

export interface TurnedChords {
  readonly chords: readonly Chord[];
  readonly bounds: Box;
}

/** The chords turned, with bounds that hold the curves behind them and some places besides. */
export function turnChords(lines: readonly Chord[], turn: Affine, also: readonly Point[]): TurnedChords {
  const places = also.map((at) => transformPoint(turn, at));
  const chords = lines.map((line) => {
    const [from, to] = [transformPoint(turn, line.from), transformPoint(turn, line.to)];
    places.push(from, to);
    return { from, to };
  });
  return { chords, bounds: inflate(boundsOf(places), FLATTEN_MM) };
}

/** How near, mm, a line makes a sheet printed: all four at a corner it passes, so that sheets meet along a seam. */
const CORNER_CLEARANCE_MM = 3;

/** The clearance, and how far a chord may lie from its curve. */
const PADDING_MM = CORNER_CLEARANCE_MM + FLATTEN_MM;

interface Span {
  from: number;
  to: number;
}

/** Where the lines run in one row of a grid. Spans are sorted and apart. */
export interface RowSpans {
  /** Where sheets are printed: the lines in the row with the clearance all round. */
  readonly padded: readonly Readonly<Span>[];
  readonly exact: readonly Readonly<Span>[];
  readonly crossings: readonly number[];
}

/** The lines cut into the rows of a grid. One pass serves every shift of the columns. */
export function spansByRow(
  { chords }: TurnedChords,
  frame: SheetFrame,
  top: number,
  count: number,
): RowSpans[] {
  const pitch = rowSpacing(frame);
  const first = top - frame.overlap / 2;
  const rows = Array.from({ length: count }, (_, row) => ({
    upper: row === 0 ? Number.POSITIVE_INFINITY : first - row * pitch,
    lower: row === count - 1 ? Number.NEGATIVE_INFINITY : first - (row + 1) * pitch,
    padded: [] as Span[],
    exact: [] as Span[],
    crossings: [] as number[],
  }));
  for (const chord of chords) {
    const { from, to } = chord;
    const low = Math.min(from.y, to.y);
    const high = Math.max(from.y, to.y);
    const highest = clampIndex(Math.floor((first - (high + PADDING_MM)) / pitch), count);
    for (let i = highest, row = rows[i]; row && low <= row.upper + PADDING_MM; row = rows[++i]) {
      const { upper, lower, padded, exact, crossings } = row;
      if (high >= lower - PADDING_MM)
        addSpan(padded, chord, lower - PADDING_MM, upper + PADDING_MM, PADDING_MM);
      if (low > upper || high < lower) continue;
      addSpan(exact, chord, lower, upper, 0);
      if (low < lower)
        crossings.push(
          from.y === to.y ? from.x : from.x + ((to.x - from.x) * (lower - from.y)) / (to.y - from.y),
        );
    }
  }
  return rows.map(({ padded, exact, crossings }) => {
    return { padded: mergeSpans(padded), exact: mergeSpans(exact), crossings };
  });
}

function addSpan(
  spans: Span[],
  { from: p, to: q }: Chord,
  lower: number,
  upper: number,
  reach: number,
): void {
  // An end inside keeps its own x: on a level chord both ends have the same y.
  const slope = (q.x - p.x) / (q.y - p.y);
  const a = p.y < lower ? p.x + slope * (lower - p.y) : p.y > upper ? p.x + slope * (upper - p.y) : p.x;
  const b = q.y < lower ? p.x + slope * (lower - p.y) : q.y > upper ? p.x + slope * (upper - p.y) : q.x;
  const from = Math.min(a, b) - reach;
  const to = Math.max(a, b) + reach;
  const last = spans.at(-1);
  if (last && from <= last.to && to >= last.from) {
    if (from < last.from) last.from = from;
    if (to > last.to) last.to = to;
  } else spans.push({ from, to });
}

function mergeSpans(spans: Span[]): Span[] {
  const merged: Span[] = [];
  for (const span of spans.sort((a, b) => a.from - b.from)) {
    const last = merged.at(-1);
    if (last && span.from <= last.to) last.to = Math.max(last.to, span.to);
    else merged.push(span);
  }
  return merged;
}

const clampIndex = (i: number, count: number): number => (i < 0 ? 0 : i >= count ? count - 1 : i);

function columnFinder(frame: SheetFrame, left: number, columns: number): (x: number) => number {
  const first = left + frame.overlap / 2;
  const pitch = columnSpacing(frame);
  return (x) => clampIndex(Math.floor((x - first) / pitch), columns);
}

/** How many sheets are printed of a grid whose first window begins at `left`, mm. */
export function countSheets(
  rows: readonly RowSpans[],
  frame: SheetFrame,
  left: number,
  columns: number,
): number {
  const columnAt = columnFinder(frame, left, columns);
  let count = 0;
  for (const { padded } of rows) {
    let last = -1;
    for (const { from, to } of padded) {
      const end = columnAt(to);
      count += Math.max(0, end - Math.max(last + 1, columnAt(from)) + 1);
      last = Math.max(last, end);
    }
  }
  return count;
}

/** How many seams the lines cross: each is the side of two sheets, and counts once. */
export function countSeamCrossings(rows: readonly RowSpans[], grid: Grid): number {
  const columnAt = columnFinder(grid, grid.left, grid.columns);
  let count = 0;
  for (const { exact, crossings } of rows) {
    for (const { from, to } of exact) count += columnAt(to) - columnAt(from);
    count += new Set(crossings.map(columnAt)).size;
  }
  return count;
}

export function printedCells(laid: TurnedChords, grid: Grid): GridCell[] {
  const columnAt = columnFinder(grid, grid.left, grid.columns);
  return spansByRow(laid, grid, grid.top, grid.rows).flatMap(({ padded }, row) => {
    const columns = new Set<number>();
    for (const { from, to } of padded)
      for (let column = columnAt(from); column <= columnAt(to); column++) columns.add(column);
    return [...columns].map((column) => ({ row, column }));
  });
}
