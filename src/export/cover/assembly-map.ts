import { type Affine, apply, enlarged, shifted } from '../../curves/geometry/affine.ts';
import { around, type Box, grown, movedBox, unitedBox } from '../../curves/geometry/bounds.ts';
import { chordsOf } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { mapPath } from '../../curves/geometry/transform.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { CAPITALS, textWidth } from '../drawing/text-width.ts';
import { type Room, strips, takeNear } from '../labels/free-space.ts';

/** Type sizes to try for a sheet's name. */
const NAME_SIZES_MM = [5, 4, 3, 2.4, 1.8];
const LETTER_MM = 3.4;
const CROSS_MM = 1.2;
const CROSS_WHITE_MM = 4.5;
const LINE_WHITE_MM = 0.7;

/** A line that the map shows, mm on the part. */
export interface MapLine {
  readonly path: readonly Segment[];
  readonly closed: boolean;
}

interface MapSpace {
  readonly width: number;
  readonly height: number;
}

/** How the sheets lie together, small: their trimmed edges and names, the line, the check crosses. */
export function assemblyMap(lines: readonly MapLine[], layout: Layout, space: MapSpace) {
  const cells = layout.sheets.map((sheet) => {
    const { x, y } = placeOf(layout, sheet);
    return movedBox(sheet.cell, x, y);
  });
  const all = unitedBox(cells);
  const k = Math.min(space.width / (all.right - all.left), space.height / (all.top - all.bottom));
  const draw = (left: number, top: number): Item[] => {
    const place: Affine = [k, 0, 0, k, left - k * all.left, top - k * all.top];
    const { x, y } = placeOf(layout, layout.sheets[0]);
    const toMap = shifted(enlarged(shifted(layout.sheets[0].toSheet, x, y), k), place[4], place[5]);
    const drawn = lines.map(({ path, closed }) => ({
      path: mapPath(path, toMap),
      ...(closed ? { closed } : {}),
    }));
    const crosses = layout.crosses.map(({ letter, at }) => ({ letter, ...apply(toMap, at) }));
    const taken = [
      ...drawn.flatMap(({ path }) => strips(chordsOf(path), LINE_WHITE_MM)),
      ...crosses.map((cross) => around(cross, CROSS_WHITE_MM)),
    ];
    const middle = point(left + (k * (all.right - all.left)) / 2, top - (k * (all.top - all.bottom)) / 2);
    return [
      ...layout.sheets.flatMap((sheet, i) => sheetOn(sheet.name, mappedBox(cells[i]!, place), taken)),
      ...drawn.map((line): Item => ({ type: 'stroke', style: 'cut', ...line })),
      ...crosses.flatMap((cross) => crossOn(cross, middle)),
    ];
  };
  return { width: k * (all.right - all.left), height: k * (all.top - all.bottom), draw };
}

/** From a sheet's own corner to one frame for all. */
function placeOf({ sheets, overlap }: Layout, { row, column, window }: Sheet): { x: number; y: number } {
  const [first] = sheets;
  const across = window.right - window.left - overlap;
  const down = window.top - window.bottom - overlap;
  return { x: (column - first.column) * across, y: (first.row - row) * down };
}

const mappedBox = (box: Box, place: Affine): Box => {
  const low = apply(place, { x: box.left, y: box.bottom });
  const high = apply(place, { x: box.right, y: box.top });
  return { left: low.x, bottom: low.y, right: high.x, top: high.y };
};

/** A sheet's outline, and its name in the largest type that finds room beside the line. */
function sheetOn(name: string, cell: Box, taken: Box[]): Item[] {
  const { left, right, bottom, top } = cell;
  const corners = [point(left, bottom), point(right, bottom), point(right, top), point(left, top)];
  const outline = polyline('map', [...corners, point(left, bottom)]);
  const room: Room = { area: grown(cell, -0.8), taken };
  for (const size of NAME_SIZES_MM) {
    const box = takeNear(room, point(left, top), textWidth(name, size), size * CAPITALS);
    if (box) return [outline, words(name, point(box.left, box.bottom), size)];
  }
  return [outline];
}

/** A check cross, its letter beside it and towards the middle of the map. */
function crossOn({ letter, x, y }: Point & { letter: string }, middle: Point): Item[] {
  const inward = x < middle.x ? 1 : -1;
  const base = y < middle.y ? y - 0.4 : y + 0.4 - LETTER_MM * CAPITALS;
  return [
    polyline('register', [point(x - CROSS_MM, y), point(x + CROSS_MM, y)]),
    polyline('register', [point(x, y - CROSS_MM), point(x, y + CROSS_MM)]),
    words(letter, point(x + inward * 1.9, base), LETTER_MM, inward > 0 ? 'start' : 'end'),
  ];
}
