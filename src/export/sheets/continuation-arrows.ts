import { boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import type { Chord } from '../../curves/geometry/flatten.ts';
import { add, leftNormal, lerp, type Point, point, scale } from '../../curves/geometry/point.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, textWidth } from '../drawing/text-width.ts';
import { type Block, boxAt } from '../labels/free-space.ts';
import { type Label, type LabelBlock, placeLabels } from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, type SheetContext } from './sheet-context.ts';

const ARROW_MM = 5;
const HEAD_MM = 1.6;
const NAME_MM = 3.2;
const GAP_MM = 1.2;
/** How far off the line the arrow may be, mm; where no place is free the sheet is crowded enough. */
const ARROW_DISTANCES_MM = [2, 3.5, 5, 8, 12];
/** Lines that cross a seam nearer to each other than this, mm, have one arrow: the line and its saw line. */
const SAME_CROSSING_MM = 12;
const MAX_ARROWS = 8;
const ROUNDING_MM = 0.01;

interface SeamSide {
  readonly name: string;
  readonly from: Point;
  readonly to: Point;
  readonly out: Point;
}

export function continuationArrows(sheet: LabelledSheet): Item[] {
  const labels = seamSides(sheet).flatMap((side) =>
    seamCrossings(sheet.lines, side).map((at): Label => {
      const candidates: Label['candidates'] = (block) => besideCrossing(sheet, side.out, at, block);
      return { anchor: boundsOf([at]), competing: [], blocks: [arrowBlock(side)], candidates };
    }),
  );
  return placeLabels(sheet.space, labels.slice(0, MAX_ARROWS));
}

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

function seamCrossings(lines: readonly Chord[], { from, to, out }: SeamSide): Point[] {
  const past = (at: Point): number => (at.x - from.x) * out.x + (at.y - from.y) * out.y;
  const along = (at: Point): number => at.x + at.y;
  const seam = inflate(boundsOf([from, to]), ROUNDING_MM);
  let last = Number.NEGATIVE_INFINITY;
  return lines
    .flatMap((line) => {
      const [a, b] = [past(line.from), past(line.to)];
      return a * b < 0 ? [lerp(line.from, line.to, a / (a - b))] : [];
    })
    .filter((at) => boxContains(seam, at))
    .sort((a, b) => along(a) - along(b))
    .filter((at) => {
      const isNew = along(at) - last > SAME_CROSSING_MM;
      last = along(at);
      return isNew;
    });
}

function arrowBlock({ name, out }: SeamSide): LabelBlock {
  const [wide, high] = [textWidth(name, NAME_MM), NAME_MM * CAP_HEIGHT];
  const flat = out.y === 0;
  return {
    width: (flat ? ARROW_MM : 2 * HEAD_MM) + GAP_MM + wide,
    height: flat ? high + 0.6 : ARROW_MM,
    // Words close beside a sheet's name would read on into it.
    white: { x: GAP_MM, y: GAP_MM },
    draw: ({ left, right, bottom, top }) => {
      const middle = (bottom + top) / 2;
      const tip = flat
        ? point(out.x > 0 ? right : left, middle)
        : point(left + HEAD_MM, out.y > 0 ? top : bottom);
      const text = flat && out.x > 0 ? left : right - wide;
      return [...drawArrow(tip, out), words(name, point(text, middle - high / 2), NAME_MM)];
    },
  };
}

function drawArrow(tip: Point, out: Point): Item[] {
  const barb = (way: number): Point =>
    add(add(tip, scale(out, -HEAD_MM)), scale(leftNormal(out), way * HEAD_MM * 0.6));
  const shaft = polyline('mark', [add(tip, scale(out, -ARROW_MM)), tip]);
  return [shaft, polyline('mark', [barb(1), tip, barb(-1)])];
}

function besideCrossing({ space: { area } }: LabelledSheet, out: Point, at: Point, { width, height }: Block) {
  const corner = (beyond: number): Point =>
    out.y === 0
      ? point(out.x > 0 ? area.right - width : area.left, beyond)
      : point(beyond, out.y > 0 ? area.top - height : area.bottom);
  const [middle, size] = out.y === 0 ? [at.y, height] : [at.x, width];
  return ARROW_DISTANCES_MM.flatMap((away) =>
    [middle + away, middle - away - size].map((start) => ({ box: boxAt(corner(start), width, height) })),
  );
}
