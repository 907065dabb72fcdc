import { type Affine, scaleMatrix, transformPoint, translate } from '../../curves/geometry/affine.ts';
import type { Box } from '../../curves/geometry/bounds.ts';
import { boundsOf, inflate, squareAround, translateBox, union } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { lastOf } from '../../units/checked.ts';
import { boxCorners, cross, type Item, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, textWidth } from '../drawing/text-width.ts';
import { boxesAlongLines, placeNear } from '../labels/free-space.ts';

const NAME_SIZES_MM = [5, 4, 3, 2.4, 1.8];
/** Above the map, and below a map of several rows. */
const NAME_BAND_MM = 5.5;
const NAME_WHITE_MM = 1.2;
const LETTER_MM = 3.4;
/** Between the map and a letter beside it, and the room for both at either side. */
const LETTER_WHITE_MM = 1;
const LETTER_BAND_MM = 4;
const CROSS_MM = 1.2;
const CROSS_WHITE_MM = 4.5;
const LINE_WHITE_MM = 0.7;

export interface MapLine {
  readonly path: readonly Segment[];
  readonly closed: boolean;
}

/** How the sheets lie together, small. */
export function assemblyMap(lines: readonly MapLine[], layout: Layout, width: number, height: number) {
  const cells = layout.sheets.map((sheet) => {
    const { x, y } = sheetShift(layout, sheet);
    return {
      name: sheet.name,
      row: sheet.row,
      neighbours: sheet.neighbours,
      cell: translateBox(sheet.cell, x, y),
    };
  });
  const all = union(cells.map(({ cell }) => cell));
  const numbers = cells.map(({ row }) => row);
  const rows = [Math.min(...numbers), Math.max(...numbers)];
  const bands = (layout.rows > 1 ? 2 : 1) * NAME_BAND_MM;
  const k = Math.min(
    (width - 2 * LETTER_BAND_MM) / (all.right - all.left),
    (height - bands) / (all.top - all.bottom),
  );
  const draw = (start: number, upper: number): Item[] => {
    const left = start + LETTER_BAND_MM;
    const top = upper - NAME_BAND_MM;
    const place: Affine = [k, 0, 0, k, left - k * all.left, top - k * all.top];
    const { x, y } = sheetShift(layout, layout.sheets[0]);
    const toMap = translate(scaleMatrix(translate(layout.sheets[0].toSheet, x, y), k), place[4], place[5]);
    const drawn = lines.map(({ path, closed }) => ({ path: transformPath(path, toMap), closed }));
    const crosses = layout.crosses.map(({ letter, at, sheet }) => ({
      letter,
      sheet,
      ...transformPoint(toMap, at),
    }));
    const taken = [
      ...drawn.flatMap(({ path }) => boxesAlongLines(flatten(path), LINE_WHITE_MM)),
      ...crosses.map((one) => squareAround(one, CROSS_WHITE_MM)),
    ];
    const middle = point(left + (k * (all.right - all.left)) / 2, top - (k * (all.top - all.bottom)) / 2);
    return [
      ...cells.flatMap(({ name, row, cell }) => sheetOnMap(name, boxOnMap(cell, place), taken, sideOf(row))),
      ...drawn.map((line): Item => ({ type: 'stroke', style: 'cut', ...line })),
      ...crosses.flatMap((one) => {
        const isLeft = one.x < middle.x;
        const found = cells.find(({ name }) => name === one.sheet);
        const taken = isLeft ? found?.neighbours.left : found?.neighbours.right;
        const box = found && taken === undefined ? boxOnMap(found.cell, place) : undefined;
        const outside = box && (isLeft ? box.left - LETTER_WHITE_MM : box.right + LETTER_WHITE_MM);
        return crossOnMap(one, isLeft, outside, middle);
      }),
    ];
  };
  const sideOf = (row: number): NameSide =>
    row === rows[0] ? 'above' : row === rows[1] ? 'below' : 'inside';
  return {
    width: k * (all.right - all.left) + 2 * LETTER_BAND_MM,
    height: k * (all.top - all.bottom) + bands,
    draw,
  };
}

/** Names are outside the lines but for those of the middle rows. */
type NameSide = 'above' | 'below' | 'inside';

function sheetShift({ sheets, overlap }: Layout, { row, column, window }: Sheet): { x: number; y: number } {
  const [first] = sheets;
  const across = window.right - window.left - overlap;
  const down = window.top - window.bottom - overlap;
  return { x: (column - first.column) * across, y: (first.row - row) * down };
}

const boxOnMap = ({ left, right, bottom, top }: Box, place: Affine): Box =>
  boundsOf([point(left, bottom), point(right, top)].map((corner) => transformPoint(place, corner)));

function sheetOnMap(name: string, cell: Box, occupied: Box[], side: NameSide): Item[] {
  const outline = polyline('map', [...boxCorners(cell), point(cell.left, cell.bottom)]);
  if (side !== 'inside') {
    const least = lastOf(NAME_SIZES_MM);
    const size = NAME_SIZES_MM.find((one) => textWidth(name, one) <= cell.right - cell.left - 1) ?? least;
    const y = side === 'above' ? cell.top + NAME_WHITE_MM : cell.bottom - NAME_WHITE_MM - size * CAP_HEIGHT;
    return [outline, words(name, point((cell.left + cell.right) / 2, y), size, 'middle')];
  }
  const space = { area: inflate(cell, -0.8), occupied };
  for (const size of NAME_SIZES_MM) {
    const draw = ({ left, bottom }: Box): Item[] => [words(name, point(left, bottom), size)];
    const block = { width: textWidth(name, size), height: size * CAP_HEIGHT, draw };
    const items = placeNear(space, point(cell.left, cell.top), block);
    if (items) return [outline, ...items];
  }
  return [outline];
}

/** Its letter is outside the map, unless a sheet is there. */
function crossOnMap(
  { letter, x, y }: Point & { letter: string },
  isLeft: boolean,
  outside: number | undefined,
  middle: Point,
): Item[] {
  const base = y < middle.y ? y - 0.4 : y + 0.4 - LETTER_MM * CAP_HEIGHT;
  const at = point(outside ?? x + (isLeft ? 1.9 : -1.9), base);
  const anchor = isLeft === (outside === undefined) ? 'start' : 'end';
  return [...cross('register', { x, y }, CROSS_MM), words(letter, at, LETTER_MM, anchor)];
}
