import { type Chord, FLATTEN_MM } from '../../curves/geometry/flatten.ts';
import { columnSpacing, type Grid, type GridCell, rowSpacing, windowOfCell } from './grid.ts';
import type { TurnedChords } from './row-spans.ts';

/** How far beyond a window a chord still counts as near it, mm: more than a register mark's white. */
const NEAR_MM = 10;

/** Finds the chords near a window. They are sorted into cells once, so that no query goes through all of them. */
export function indexChordsByCell({ chords }: TurnedChords, grid: Grid) {
  const found = new Map<number, Chord[]>();
  const [across, down] = [columnSpacing(grid), rowSpacing(grid)];
  const reach = NEAR_MM + FLATTEN_MM;
  const { left, top } = grid;
  const window = windowOfCell(grid, { row: 0, column: 0 });
  const [width, height] = [window.right - left, top - window.bottom];
  for (const chord of chords) {
    const { from, to } = chord;
    const west = Math.min(from.x, to.x) - reach - left;
    const east = Math.max(from.x, to.x) + reach - left;
    const firstColumn = Math.max(0, Math.ceil((west - width) / across));
    const lastColumn = Math.min(grid.columns - 1, Math.floor(east / across));
    const firstRow = Math.max(0, Math.ceil((top - Math.max(from.y, to.y) - reach - height) / down));
    const lastRow = Math.min(grid.rows - 1, Math.floor((top - Math.min(from.y, to.y) + reach) / down));
    for (let row = firstRow; row <= lastRow; row++)
      for (let column = firstColumn; column <= lastColumn; column++) {
        const key = row * grid.columns + column;
        const list = found.get(key);
        if (list) list.push(chord);
        else found.set(key, [chord]);
      }
  }
  return ({ row, column }: GridCell): readonly Chord[] => found.get(row * grid.columns + column) ?? [];
}
