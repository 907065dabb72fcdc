import { unitedBox } from '../curves/box.ts';
import type { Box } from '../curves/curve.ts';
import type { Segment } from '../curves/piece.ts';
import { mapSegment } from '../curves/segment.ts';
import { finishedLine } from '../part/make-part.ts';
import type { Part } from '../part/part.ts';
import { type Affine, apply, enlarged, shifted } from '../tiling/affine.ts';
import type { Layout, Sheet } from '../tiling/layout.ts';
import { type Item, polyline, words } from './drawing.ts';

/** The largest name on the map and its share of a small sheet's width. */
const NAME_MM = 5;
const NAME_SHARE = 0.3;
const LETTER_MM = 3.4;
const CROSS_MM = 1.2;

/** How the sheets lie together, small: their trimmed edges and names, the line, the check crosses. */
export function assemblyMap(part: Part, layout: Layout, space: { width: number; height: number }) {
  const cells = layout.sheets.map((sheet) => movedBox(sheet.cell, placeOf(layout, sheet)));
  const all = unitedBox(cells);
  const k = Math.min(space.width / (all.right - all.left), space.height / (all.top - all.bottom));
  const draw = (left: number, top: number): Item[] => {
    const place: Affine = [k, 0, 0, k, left - k * all.left, top - k * all.top];
    const first = layout.sheets[0];
    const { x, y } = placeOf(layout, first);
    const toMap = shifted(enlarged(shifted(first.toSheet, x, y), k), place[4], place[5]);
    return [
      ...layout.sheets.flatMap((sheet, i) => sheetOn(sheet, cells[i] ?? all, place)),
      ...lineOn(part, toMap),
      ...crossesOn(layout, toMap),
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

const movedBox = (box: Box, { x, y }: { x: number; y: number }): Box => ({
  left: box.left + x,
  right: box.right + x,
  bottom: box.bottom + y,
  top: box.top + y,
});

function sheetOn(sheet: Sheet, cell: Box, place: Affine): Item[] {
  const low = apply(place, { x: cell.left, y: cell.bottom });
  const high = apply(place, { x: cell.right, y: cell.top });
  const size = Math.min(NAME_MM, (high.x - low.x) * NAME_SHARE);
  const corners = [low, { x: high.x, y: low.y }, high, { x: low.x, y: high.y }, low];
  return [
    polyline('map', corners),
    words(sheet.name, { x: low.x + size * 0.3, y: low.y + size * 0.35 }, size),
  ];
}

function lineOn(part: Part, toMap: Affine): Item[] {
  const path = finishedLine(part.shape).map((segment: Segment) => mapSegment(segment, toMap));
  const closed = part.shape.type === 'closed';
  return [{ type: 'stroke', style: 'cut', path, ...(closed ? { closed } : {}) }];
}

function crossesOn(layout: Layout, toMap: Affine): Item[] {
  const points = layout.crosses.map(({ letter, at }) => ({ letter, ...apply(toMap, at) }));
  return points.flatMap(({ letter, x, y }) => [
    polyline('register', [
      { x: x - CROSS_MM, y },
      { x: x + CROSS_MM, y },
    ]),
    polyline('register', [
      { x, y: y - CROSS_MM },
      { x, y: y + CROSS_MM },
    ]),
    words(letter, { x: x + 0.6, y: y + 0.6 }, LETTER_MM),
  ]);
}
