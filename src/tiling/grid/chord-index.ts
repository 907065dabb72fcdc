import { type Chord, FLATTEN_MM } from '../../curves/geometry/flatten.ts';
import { columnSpacing, type Grid, type GridCell, rowSpacing, windowOfCell } from './grid.ts';
import type { TurnedChords } from './row-spans.ts';

/** How far beyond a window a chord still counts as near it, mm: more than a register mark's white. */
const NEAR_MM = 10;

/** The chords near a window, sorted into places once, so that a long pattern is not gone through for each. */
export function indexChordsByCell({ ends }: TurnedChords, grid: Grid): (place: GridCell) => readonly Chord[] {
  const found = new Map<number, Chord[]>();
  const [across, down] = [columnSpacing(grid), rowSpacing(grid)];
  const reach = NEAR_MM + FLATTEN_MM;
  const { left, top } = grid;
  const windowRight = windowOfCell(grid, { row: 0, column: 0 }).right - left;
  const windowBottom = top - windowOfCell(grid, { row: 0, column: 0 }).bottom;
  const columnsOf = (low: number, high: number): [number, number] => [
    Math.max(0, Math.ceil((low - reach - left - windowRight) / across)),
    Math.min(grid.columns - 1, Math.floor((high + reach - left) / across)),
  ];
  const rowsOf = (low: number, high: number): [number, number] => [
    Math.max(0, Math.ceil((top - high - reach - windowBottom) / down)),
    Math.min(grid.rows - 1, Math.floor((top - low + reach) / down)),
  ];
  for (let i = 0; i < ends.length; i += 4) {
    const [x0, y0, x1, y1] = [ends[i]!, ends[i + 1]!, ends[i + 2]!, ends[i + 3]!];
    const chord = { from: { x: x0, y: y0 }, to: { x: x1, y: y1 } };
    const [firstRow, lastRow] = rowsOf(Math.min(y0, y1), Math.max(y0, y1));
    const [firstColumn, lastColumn] = columnsOf(Math.min(x0, x1), Math.max(x0, x1));
    for (let row = firstRow; row <= lastRow; row++)
      for (let column = firstColumn; column <= lastColumn; column++) {
        const key = row * grid.columns + column;
        const list = found.get(key);
        if (list) list.push(chord);
        else found.set(key, [chord]);
      }
  }
  return ({ row, column }) => found.get(row * grid.columns + column) ?? [];
}
