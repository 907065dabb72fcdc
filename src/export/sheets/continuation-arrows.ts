import { type Box, boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import type { Chord } from '../../curves/geometry/flatten.ts';
import { add, lerp, type Point, point, scale } from '../../curves/geometry/point.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, textWidth } from '../drawing/text-width.ts';
import { boxAt, type OccupiedSpace, reserveFirst } from '../labels/free-space.ts';
import { boxContains, type SheetContext } from './sheet-context.ts';

/** The arrow and the name beside it, mm. */
const ARROW_MM = 5;
const HEAD_MM = 1.6;
const NAME_MM = 3.2;
const GAP_MM = 1.2;

/** How far off the line the arrow may stand, mm; where none is free the sheet is crowded enough. */
const ARROW_DISTANCES_MM = [2, 3.5, 5, 8, 12];

/** Lines that cross a seam nearer to each other than this, mm, have one arrow: the line and its saw line. */
const SAME_CROSSING_MM = 12;

/** Finished lines and saw lines leave a sheet this many times at most before the arrows stop helping. */
const MAX_ARROWS = 8;

/** A seam as the sheet sees it: its line, which way the neighbour lies, and its name. */
interface SeamSide {
  readonly name: string;
  readonly from: Point;
  readonly to: Point;
  readonly out: Point;
}

/** Where a line leaves the sheet: a small arrow with the name of the sheet that it runs on to. */
export const continuationArrows = (view: SheetContext, room: OccupiedSpace): Item[] =>
  seamSides(view)
    .flatMap((side) => seamCrossings(view.lines, side).map((at) => ({ side, at })))
    .slice(0, MAX_ARROWS)
    .flatMap(({ side, at }) => placeArrow(room, side, at));

function seamSides({ sheet: { cell, neighbours } }: SheetContext): SeamSide[] {
  const { left, right, bottom, top } = cell;
  const side = (name: string | undefined, from: Point, to: Point, out: Point): SeamSide[] =>
    name === undefined ? [] : [{ name, from, to, out }];
  return [
    ...side(neighbours.left, point(left, bottom), point(left, top), point(-1, 0)),
    ...side(neighbours.right, point(right, bottom), point(right, top), point(1, 0)),
    ...side(neighbours.above, point(left, top), point(right, top), point(0, 1)),
    ...side(neighbours.below, point(left, bottom), point(right, bottom), point(0, -1)),
  ];
}

/** Where lines cross a seam within the sheet, from its lower left end, near ones once. */
function seamCrossings(lines: readonly Chord[], { from, to, out }: SeamSide): Point[] {
  const past = (at: Point): number => (at.x - from.x) * out.x + (at.y - from.y) * out.y;
  const along = (at: Point): number => at.x + at.y;
  return lines
    .flatMap((line) => {
      const [a, b] = [past(line.from), past(line.to)];
      return a * b < 0 ? [lerp(line.from, line.to, a / (a - b))] : [];
    })
    .filter((at) => boxContains(inflate(boundsOf([from, to]), ROUNDING_MM), at))
    .sort((a, b) => along(a) - along(b))
    .filter((at, i, all) => i === 0 || along(at) - along(all[i - 1]!) > SAME_CROSSING_MM);
}

/** A crossing lies on its seam but for rounding, mm. */
const ROUNDING_MM = 0.01;

function placeArrow(room: OccupiedSpace, { name, out }: SeamSide, at: Point): Item[] {
  const [wide, high] = [textWidth(name, NAME_MM), NAME_MM * CAP_HEIGHT];
  const flat = out.y === 0;
  const [width, height] = flat
    ? [ARROW_MM + GAP_MM + wide, high + 0.6]
    : [2 * HEAD_MM + GAP_MM + wide, ARROW_MM];
  const box = reserveFirst(room, arrowBoxes(room, out, at, width, height));
  if (!box) return [];
  // Words close beside a sheet's name would read on into it.
  room.occupied.push(inflate(box, GAP_MM));
  const middle = (box.bottom + box.top) / 2;
  // The arrow stands next to the seam, the name behind it or beside it.
  const tip = flat
    ? point(out.x > 0 ? box.right : box.left, middle)
    : point(box.left + HEAD_MM, out.y > 0 ? box.top : box.bottom);
  const text = flat ? (out.x > 0 ? box.left : box.right - wide) : box.right - wide;
  return [...drawArrow(tip, out), words(name, point(text, middle - high / 2), NAME_MM)];
}

function drawArrow(tip: Point, out: Point): Item[] {
  const side = point(-out.y, out.x);
  const barb = (way: number): Point => add(add(tip, scale(out, -HEAD_MM)), scale(side, way * HEAD_MM * 0.6));
  return [
    polyline('mark', [add(tip, scale(out, -ARROW_MM)), tip]),
    polyline('mark', [barb(1), tip, barb(-1)]),
  ];
}

/** Just inside the seam, on either side of the line, near before far. */
function arrowBoxes({ area }: OccupiedSpace, out: Point, at: Point, width: number, height: number): Box[] {
  return ARROW_DISTANCES_MM.flatMap((away) =>
    [1, -1].map((way) => {
      if (out.y === 0) {
        const y = way > 0 ? at.y + away : at.y - away - height;
        return boxAt(point(out.x > 0 ? area.right - width : area.left, y), width, height);
      }
      const x = way > 0 ? at.x + away : at.x - away - width;
      return boxAt(point(x, out.y > 0 ? area.top - height : area.bottom), width, height);
    }),
  );
}
