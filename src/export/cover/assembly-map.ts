import { type Affine, scaleMatrix, transformPoint, translate } from '../../curves/geometry/affine.ts';
import type { Box } from '../../curves/geometry/bounds.ts';
import { boundsOf, inflate, squareAround, translateBox, union } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { boxCorners, cross, type Item, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, textWidth } from '../drawing/text-width.ts';
import { boxesAlongLines, placeNear } from '../labels/free-space.ts';

const NAME_SIZES_MM = [5, 4, 3, 2.4, 1.8];
const LETTER_MM = 3.4;
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
    return { name: sheet.name, cell: translateBox(sheet.cell, x, y) };
  });
  const all = union(cells.map(({ cell }) => cell));
  const k = Math.min(width / (all.right - all.left), height / (all.top - all.bottom));
  const draw = (left: number, top: number): Item[] => {
    const place: Affine = [k, 0, 0, k, left - k * all.left, top - k * all.top];
    const { x, y } = sheetShift(layout, layout.sheets[0]);
    const toMap = translate(scaleMatrix(translate(layout.sheets[0].toSheet, x, y), k), place[4], place[5]);
    const drawn = lines.map(({ path, closed }) => ({ path: transformPath(path, toMap), closed }));
    const crosses = layout.crosses.map(({ letter, at }) => ({ letter, ...transformPoint(toMap, at) }));
    const taken = [
      ...drawn.flatMap(({ path }) => boxesAlongLines(flatten(path), LINE_WHITE_MM)),
      ...crosses.map((one) => squareAround(one, CROSS_WHITE_MM)),
    ];
    const middle = point(left + (k * (all.right - all.left)) / 2, top - (k * (all.top - all.bottom)) / 2);
    return [
      ...cells.flatMap(({ name, cell }) => sheetOnMap(name, boxOnMap(cell, place), taken)),
      ...drawn.map((line): Item => ({ type: 'stroke', style: 'cut', ...line })),
      ...crosses.flatMap((one) => crossOnMap(one, middle)),
    ];
  };
  return { width: k * (all.right - all.left), height: k * (all.top - all.bottom), draw };
}

function sheetShift({ sheets, overlap }: Layout, { row, column, window }: Sheet): { x: number; y: number } {
  const [first] = sheets;
  const across = window.right - window.left - overlap;
  const down = window.top - window.bottom - overlap;
  return { x: (column - first.column) * across, y: (first.row - row) * down };
}

const boxOnMap = ({ left, right, bottom, top }: Box, place: Affine): Box =>
  boundsOf([point(left, bottom), point(right, top)].map((corner) => transformPoint(place, corner)));

function sheetOnMap(name: string, cell: Box, occupied: Box[]): Item[] {
  const outline = polyline('map', [...boxCorners(cell), point(cell.left, cell.bottom)]);
  const space = { area: inflate(cell, -0.8), occupied };
  for (const size of NAME_SIZES_MM) {
    const draw = ({ left, bottom }: Box): Item[] => [words(name, point(left, bottom), size)];
    const block = { width: textWidth(name, size), height: size * CAP_HEIGHT, draw };
    const items = placeNear(space, point(cell.left, cell.top), block);
    if (items) return [outline, ...items];
  }
  return [outline];
}

function crossOnMap({ letter, x, y }: Point & { letter: string }, middle: Point): Item[] {
  const inward = x < middle.x ? 1 : -1;
  const base = y < middle.y ? y - 0.4 : y + 0.4 - LETTER_MM * CAP_HEIGHT;
  return [
    ...cross('register', { x, y }, CROSS_MM),
    words(letter, point(x + inward * 1.9, base), LETTER_MM, inward > 0 ? 'start' : 'end'),
  ];
}
