import { type Box, inflate } from '../../curves/geometry/bounds.ts';
import { type Chord, FLATTEN_MM } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';

/**
 * Room on one sheet: the rectangle that words and bars may fill, and what is taken in it already.
 * `taken` grows as things are placed; nothing placed covers a line to cut, a mark or another word.
 */
export interface OccupiedSpace {
  readonly area: Box;
  readonly occupied: Box[];
  /** Those of it that hold the lines to cut: a mark at the edge touches these and nothing else. */
  readonly lineBoxes?: ReadonlySet<Box>;
}

/** A block exactly as large as its room still fits, whatever the last bits say. */
const ROUNDING_MM = 1e-6;

/** How finely free places are sought, mm. */
const STEP_MM = 2.5;

/** A slanting line is taken as a row of boxes no thicker than this, mm: thinner finds no more room. */
const MAX_BOX_THICKNESS_MM = 3;

/** Boxes that hold a line, with white on both sides. */
export const boxesAlongLines = (lines: readonly Chord[], white: number): Box[] =>
  lines.flatMap(({ from, to }) => {
    const parts = Math.max(
      1,
      Math.ceil(Math.min(Math.abs(to.x - from.x), Math.abs(to.y - from.y)) / MAX_BOX_THICKNESS_MM),
    );
    return Array.from({ length: parts }, (_, i) => {
      const [a, b] = [i / parts, (i + 1) / parts];
      const [ax, bx] = [from.x + (to.x - from.x) * a, from.x + (to.x - from.x) * b];
      const [ay, by] = [from.y + (to.y - from.y) * a, from.y + (to.y - from.y) * b];
      const box = {
        left: Math.min(ax, bx),
        right: Math.max(ax, bx),
        bottom: Math.min(ay, by),
        top: Math.max(ay, by),
      };
      return inflate(box, white + FLATTEN_MM);
    });
  });

export const isFree = (room: OccupiedSpace, { left, right, bottom, top }: Box): boolean =>
  isCornerFree(room, left, bottom, right - left, top - bottom);

/**
 * The same of a block by its lower left corner; asked thousands of times a sheet, so it makes nothing. What lies in the
 * way here lies in the way of the next place, too, as a rule: it is asked sooner from now on.
 */
function isCornerFree(
  { area, occupied }: OccupiedSpace,
  left: number,
  bottom: number,
  width: number,
  height: number,
) {
  const right = left + width;
  const top = bottom + height;
  if (left < area.left - ROUNDING_MM || right > area.right + ROUNDING_MM) return false;
  if (bottom < area.bottom - ROUNDING_MM || top > area.top + ROUNDING_MM) return false;
  for (let i = 0; i < occupied.length; i++) {
    const one = occupied[i]!;
    if (one.left >= right || left >= one.right || one.bottom >= top || bottom >= one.top) continue;
    const sooner = i >> 1;
    occupied[i] = occupied[sooner]!;
    occupied[sooner] = one;
    return false;
  }
  return true;
}

/** The box of a width and height (mm) whose lower left corner is at a place. */
export const boxAt = ({ x, y }: Point, width: number, height: number): Box => ({
  left: x,
  right: x + width,
  bottom: y,
  top: y + height,
});

/** The first of some boxes that is free, taken from then on. */
export function reserveFirst(room: OccupiedSpace, boxes: Iterable<Box>): Box | undefined {
  for (const box of boxes)
    if (isFree(room, box)) {
      room.occupied.push(box);
      return box;
    }
  return undefined;
}

/** How far off a thing its label may stand, mm. */
export const BESIDE_MM = [1.5, 4, 8, 13];
/** Steps of a label's own size that it may be moved along the thing's side. */
const SLIDE_SHARES = [0, 0.25, -0.25, 0.5, -0.5, 0.8, -0.8];

/** Where a block may stand beside a box, free or not: above, below, right or left, close before far. */
export function boxesBeside(beside: Box, width: number, height: number, offs = BESIDE_MM): Box[] {
  const [x, y] = [(beside.left + beside.right - width) / 2, (beside.bottom + beside.top - height) / 2];
  const [wide, high] = [width + beside.right - beside.left, height + beside.top - beside.bottom];
  const corners = offs.flatMap((off) =>
    SLIDE_SHARES.flatMap((slide) => [
      { x: x + slide * wide, y: beside.top + off },
      { x: x + slide * wide, y: beside.bottom - off - height },
      { x: beside.right + off, y: y + slide * high },
      { x: beside.left - off - width, y: y + slide * high },
    ]),
  );
  return corners.map((corner) => boxAt(corner, width, height));
}

/** The first of them that is free, taken from then on. */
export const reserveBeside = (
  room: OccupiedSpace,
  beside: Box,
  width: number,
  height: number,
): Box | undefined => reserveFirst(room, boxesBeside(beside, width, height));

/** Where a block's lower left corner may stand in a room, taken or not: all over it. */
function candidateCorners(
  { area }: OccupiedSpace,
  width: number,
  height: number,
): { xs: number[]; ys: number[] } {
  const steps = (low: number, high: number): number[] =>
    high < low - ROUNDING_MM
      ? []
      : [
          ...Array.from({ length: Math.floor((high - low) / STEP_MM) + 1 }, (_, i) => low + i * STEP_MM),
          high,
        ];
  return { xs: steps(area.left, area.right - width), ys: steps(area.bottom, area.top - height) };
}

/** Where a block may stand in a room, taken or not. */
export function* candidateBoxes(room: OccupiedSpace, width: number, height: number): Generator<Box> {
  const { xs, ys } = candidateCorners(room, width, height);
  for (const x of xs) for (const y of ys) yield boxAt({ x, y }, width, height);
}

/** How far a block's lower left corner stands from a wished one, squared. */
export const squaredDistance = (wished: Point, { left, bottom }: Box): number =>
  (left - wished.x) ** 2 + (bottom - wished.y) ** 2;

/** A free place for a block, its lower left corner as near as can be to a wished one. */
export function nearestFree(
  room: OccupiedSpace,
  wished: Point,
  width: number,
  height: number,
): Box | undefined {
  const corners = candidateCorners(room, width, height);
  const xs = corners.xs.sort((a, b) => Math.abs(a - wished.x) - Math.abs(b - wished.x) || a - b);
  const ys = corners.ys.sort((a, b) => Math.abs(a - wished.y) - Math.abs(b - wished.y) || a - b);
  let [best, nearest]: [Point | undefined, number] = [undefined, Number.POSITIVE_INFINITY];
  for (const x of xs) {
    const squaredAside = (x - wished.x) ** 2;
    if (squaredAside >= nearest) break;
    const y = ys.find((one) => {
      const squared = squaredAside + (one - wished.y) ** 2;
      return squared >= nearest || isCornerFree(room, x, one, width, height);
    });
    if (y === undefined || squaredAside + (y - wished.y) ** 2 >= nearest) continue;
    [best, nearest] = [{ x, y }, squaredAside + (y - wished.y) ** 2];
  }
  return best && boxAt(best, width, height);
}

/** The same, taken from then on. */
export function reserveNear(
  room: OccupiedSpace,
  wished: Point,
  width: number,
  height: number,
): Box | undefined {
  const box = nearestFree(room, wished, width, height);
  if (box) room.occupied.push(box);
  return box;
}
