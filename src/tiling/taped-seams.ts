import { invert, transformPoint } from '../curves/geometry/affine.ts';
import type { Box } from '../curves/geometry/bounds.ts';
import { distance, lerp, type Point, point } from '../curves/geometry/point.ts';
import type { Layout, Sheet } from './layout.ts';

/** How two sheets are joined, mm on the part. */
export interface TapedSeam {
  /** The sheet beneath, then the one on top. */
  readonly sheets: readonly [string, string];
  /** Halfway between its register marks: a sheet turns on its neighbor about this place. */
  readonly middle: Point;
  /** From one register mark to the other; half the seam where a line leaves room for one or none. */
  readonly marksApart: number;
}

/** Every seam, also those that close a ring of sheets. */
export const tapedSeams = ({ sheets }: Layout): TapedSeam[] => sheets.flatMap(seamsOnNeighbors);

/** To each sheet by its name: the fewest seams that lead there from the first sheet. */
export function seamsToSheets(layout: Layout): ReadonlyMap<string, readonly TapedSeam[]> {
  const { sheets } = layout;
  const seamsOf = new Map<string, TapedSeam[]>(sheets.map(({ name }) => [name, []]));
  for (const seam of tapedSeams(layout)) for (const name of seam.sheets) seamsOf.get(name)?.push(seam);
  const [{ name: first }] = sheets;
  const found = new Map<string, readonly TapedSeam[]>([[first, []]]);
  // A map goes on over the entries added meanwhile, so that the nearest sheets come first.
  for (const [name, way] of found)
    for (const seam of seamsOf.get(name) ?? [])
      for (const next of seam.sheets) if (!found.has(next)) found.set(next, [...way, seam]);
  return found;
}

/** A sheet is cut and laid on those at its left and above it. */
function seamsOnNeighbors({ name, cell, neighbours, marks, toSheet }: Sheet): TapedSeam[] {
  const { left, right, top, bottom } = cell;
  const toPart = invert(toSheet);
  const seam = (beneath: string | undefined, from: Point, to: Point): TapedSeam[] => {
    if (beneath === undefined) return [];
    const [one, other] = marks.filter(({ sheets }) => sheets.includes(beneath) && sheets.includes(name));
    const ends = [from, to].map((end) => transformPoint(toPart, end)) as [Point, Point];
    const [a, b] = one && other ? [one.at, other.at] : [lerp(...ends, 1 / 4), lerp(...ends, 3 / 4)];
    return [{ sheets: [beneath, name], middle: lerp(a, b, 1 / 2), marksApart: distance(a, b) }];
  };
  return [
    ...seam(neighbours.left, point(left, bottom), point(left, top)),
    ...seam(neighbours.above, point(left, top), point(right, top)),
  ];
}

/** The sheet that shows a place once all is taped, or the nearest. */
export function sheetShowing({ sheets }: Layout, place: Point): Sheet {
  const outside = sheets.map(({ cell, toSheet }) => distanceToBox(cell, transformPoint(toSheet, place)));
  return sheets[outside.indexOf(Math.min(...outside))] ?? sheets[0];
}

function distanceToBox({ left, right, bottom, top }: Box, { x, y }: Point): number {
  return Math.hypot(Math.max(0, left - x, x - right), Math.max(0, bottom - y, y - top));
}
