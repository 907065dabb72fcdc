import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rotate, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { inflate } from '../../../src/curves/geometry/bounds.ts';
import { type Chord, flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import {
  type Grid,
  type GridCell,
  type SheetFrame,
  sheetFrame,
  sheetName,
  trimmedCell,
} from '../../../src/tiling/grid/grid.ts';
import { linesToCut } from '../../../src/tiling/grid/lines-to-tile.ts';
import {
  countSeamCrossings,
  countSheets,
  printedCells,
  spansByRow,
  turnChords,
} from '../../../src/tiling/grid/row-spans.ts';
import { PAPERS, parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { gentlePart } from '../parts.ts';

/** The clearance that keeps sheets in one piece, mm; it is said of every layout's sheets as well. */
const CLEARANCE_MM = 3;

const frame = (paper: string): SheetFrame =>
  sheetFrame({ paper: parsePaper(paper), margin: 10, overlap: 15 }, 'upright');

const everyPlace = ({ rows, columns }: Grid): GridCell[] =>
  Array.from({ length: rows * columns }, (_, i) => ({ row: Math.floor(i / columns), column: i % columns }));

test('a line through the corner of four sheets keeps all four', () => {
  // Windows of 180 mm, 165 mm apart: the four cells meet at (172.5, −172.5).
  const grid: Grid = { ...frame('200x200mm'), rows: 2, columns: 2, left: 0, top: 0 };
  const slant = (by: number): GridCell[] =>
    printedCells(turnChords([{ from: point(20, -20 - by), to: point(320, -320 - by) }], rotate(0), []), grid);
  expect(slant(0).map(sheetName)).toEqual(['1A', '1B', '2A', '2B']);
  expect(slant(10).map(sheetName)).toEqual(['1A', '2A', '2B']);
});

const anywhere = fc.record({
  part: gentlePart(),
  paper: fc.constantFrom(...PAPERS),
  turn: fc.double({ min: -45, max: 45, noNaN: true }),
  x: fc.double({ min: 0, max: 1, noNaN: true }),
  y: fc.double({ min: 0, max: 1, noNaN: true }),
});

/** A grid large enough wherever it stands, and the lines turned in its frame. */
function gridOver({ part, paper, turn, x, y }: typeof anywhere extends fc.Arbitrary<infer T> ? T : never) {
  const lines = flatten(linesToCut(part));
  const laid = turnChords(lines, rotate(turn), []);
  const frame = sheetFrame({ paper, margin: 10, overlap: 15 }, 'upright');
  const grid: Grid = {
    ...frame,
    rows: 14,
    columns: 14,
    left: laid.bounds.left - 10 - 200 * x,
    top: laid.bounds.top + 10 + 200 * y,
  };
  const turned = lines.map(
    ({ from, to }): Chord => ({
      from: transformPoint(rotate(turn), from),
      to: transformPoint(rotate(turn), to),
    }),
  );
  return { grid, laid, turned };
}

test('property: the printed sheets are those whose share, or 3 mm round it, a line passes', () => {
  fc.assert(
    fc.property(anywhere, (given) => {
      const { grid, laid, turned } = gridOver(given);
      // A line that just touches the clearance may be judged either way by the last bit.
      const holding = (by: number) =>
        everyPlace(grid)
          .filter((place) =>
            turned.some((chord) => segmentIntersectsBox(chord, inflate(trimmedCell(grid, place), by))),
          )
          .map(sheetName);
      const printed = printedCells(laid, grid).map(sheetName);
      expect(holding(CLEARANCE_MM + 1e-6)).toEqual(expect.arrayContaining(printed));
      expect(printed).toEqual(expect.arrayContaining(holding(CLEARANCE_MM - 1e-6)));
      const rows = spansByRow(laid, grid, grid.top, grid.rows);
      expect(countSheets(rows, grid, grid.left, grid.columns)).toBe(printed.length);
    }),
    { numRuns: 60 },
  );
});

test('property: the seams crossed are the sides of cells that a line passes', () => {
  fc.assert(
    fc.property(anywhere, (given) => {
      const { grid, laid, turned } = gridOver(given);
      const crossed = (by: number): number =>
        everyPlace(grid)
          .flatMap((place) => {
            const cell = trimmedCell(grid, place);
            return [
              ...(place.column > 0 ? [{ ...cell, right: cell.left }] : []),
              ...(place.row > 0 ? [{ ...cell, bottom: cell.top }] : []),
            ];
          })
          .filter((seam) => turned.some((chord) => segmentIntersectsBox(chord, inflate(seam, by)))).length;
      const counted = countSeamCrossings(spansByRow(laid, grid, grid.top, grid.rows), grid);
      // `passes` takes lines within 0.01 mm as passing; a seam that a line only just touches is moot.
      expect(counted).toBeGreaterThanOrEqual(crossed(-0.011));
      expect(counted).toBeLessThanOrEqual(crossed(0.001));
    }),
    { numRuns: 60 },
  );
});
