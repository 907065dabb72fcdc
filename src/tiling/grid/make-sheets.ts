import { type Affine, translate } from '../../curves/geometry/affine.ts';
import { translateBox } from '../../curves/geometry/bounds.ts';
import type { Neighbours, RegisterMark, Sheet } from '../layout.ts';
import { type Grid, type GridCell, sheetName, trimmedCell, windowOfCell } from './grid.ts';

/** The printed cells of a grid as sheets, each with its neighbors and the register marks it shares. */
export function makeSheets(
  printed: readonly GridCell[],
  grid: Grid,
  turn: Affine,
  marks: readonly RegisterMark[],
): Sheet[] {
  const marksOf = new Map<string, RegisterMark[]>(printed.map((place) => [sheetName(place), []]));
  for (const mark of marks) for (const name of mark.sheets) marksOf.get(name)?.push(mark);
  return printed.map((place) => {
    const name = sheetName(place);
    const window = windowOfCell(grid, place);
    const [x, y] = [grid.margin.left - window.left, grid.margin.bottom - window.bottom];
    return {
      name,
      ...place,
      size: grid.size,
      stretch: grid.stretch,
      toSheet: translate(turn, x, y),
      window: translateBox(window, x, y),
      cell: translateBox(trimmedCell(grid, place), x, y),
      neighbours: neighboursOf(place, marksOf),
      marks: marksOf.get(name) ?? [],
    };
  });
}

function neighboursOf({ row, column }: GridCell, printed: ReadonlyMap<string, unknown>): Neighbours {
  const beyond = (down: number, right: number): string | undefined => {
    const name = sheetName({ row: row + down, column: column + right });
    return printed.has(name) ? name : undefined;
  };
  const all = { left: beyond(0, -1), right: beyond(0, 1), above: beyond(-1, 0), below: beyond(1, 0) };
  return Object.fromEntries(Object.entries(all).filter(([, name]) => name !== undefined));
}
