import { type Box, boundsOf, inflate } from '../../curves/geometry/bounds.ts';
import { type Chord, FLATTEN_MM } from '../../curves/geometry/flatten.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { Item } from '../drawing/drawing.ts';

/** A rectangle, and the boxes in it that already hold something, mm. */
export interface OccupiedSpace {
  readonly area: Box;
  readonly occupied: Box[];
  /** The boxes that hold the lines to cut: a face mark may touch these and no others. */
  readonly lineBoxes?: ReadonlySet<Box>;
}

export interface Block {
  readonly width: number;
  readonly height: number;
  readonly draw: (box: Box) => Item[];
}

/** A block exactly as large as its space still fits, whatever the last bits say. */
const ROUNDING_MM = 1e-6;
/** The step of a search for a free place, mm. */
const STEP_MM = 2.5;
/** A slanting line is covered by a row of boxes no thicker than this, mm: thinner ones free no more space. */
const MAX_BOX_THICKNESS_MM = 3;

/** Boxes that hold lines, with white (mm) on both sides. */
export const boxesAlongLines = (lines: readonly Chord[], white: number): Box[] =>
  lines.flatMap(({ from, to }) => {
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    const parts = Math.max(1, Math.ceil(Math.min(Math.abs(dx), Math.abs(dy)) / MAX_BOX_THICKNESS_MM));
    return Array.from({ length: parts }, (_, i) => {
      const ends = [i / parts, (i + 1) / parts].map((t) => point(from.x + dx * t, from.y + dy * t));
      return inflate(boundsOf(ends), white + FLATTEN_MM);
    });
  });

export const isFree = (space: OccupiedSpace, { left, right, bottom, top }: Box): boolean =>
  isCornerFree(space, left, bottom, right - left, top - bottom);

/** This runs thousands of times a sheet, so it allocates nothing, and a box that blocks moves forward in the list. */
function isCornerFree(
  { area, occupied }: OccupiedSpace,
  left: number,
  bottom: number,
  width: number,
  height: number,
): boolean {
  const right = left + width;
  const top = bottom + height;
  if (left < area.left - ROUNDING_MM || right > area.right + ROUNDING_MM) return false;
  if (bottom < area.bottom - ROUNDING_MM || top > area.top + ROUNDING_MM) return false;
  let i = 0;
  for (const one of occupied) {
    if (one.left < right && left < one.right && one.bottom < top && bottom < one.top) {
      const forward = i >> 1;
      occupied[i] = occupied[forward] ?? one;
      occupied[forward] = one;
      return false;
    }
    i++;
  }
  return true;
}

/** The box of a width and height (mm) whose lower left corner is at a place. */
const boxAt = ({ x, y }: Point, width: number, height: number): Box => ({
  left: x,
  right: x + width,
  bottom: y,
  top: y + height,
});

/** The box of a width and height (mm) around a place. */
export const boxAround = ({ x, y }: Point, width: number, height: number): Box =>
  boxAt({ x: x - width / 2, y: y - height / 2 }, width, height);

export const centreOf = ({ left, right, bottom, top }: Box): Point =>
  point((left + right) / 2, (bottom + top) / 2);

/** Distances from an anchor to its label, mm. */
export const BESIDE_MM = [1.5, 4, 8, 13];
/** Shifts of a label along the side of its anchor, shares of both their lengths. */
const SLIDE_SHARES = [0, 0.25, -0.25, 0.5, -0.5, 0.8, -0.8];

/** Places for a block (mm) beside a box, free or not: above, below, right or left, close before far. */
export function boxesBeside(beside: Box, width: number, height: number, distances = BESIDE_MM): Box[] {
  const [x, y] = [(beside.left + beside.right - width) / 2, (beside.bottom + beside.top - height) / 2];
  const [wide, high] = [width + beside.right - beside.left, height + beside.top - beside.bottom];
  const corners = distances.flatMap((off) =>
    SLIDE_SHARES.flatMap((slide) => [
      { x: x + slide * wide, y: beside.top + off },
      { x: x + slide * wide, y: beside.bottom - off - height },
      { x: beside.right + off, y: y + slide * high },
      { x: beside.left - off - width, y: y + slide * high },
    ]),
  );
  return corners.map((corner) => boxAt(corner, width, height));
}

function steps(low: number, high: number, step = STEP_MM): number[] {
  if (high < low - ROUNDING_MM) return [];
  const count = Math.floor((high - low) / step) + 1;
  return [...Array.from({ length: count }, (_, i) => low + i * step), high];
}

/** Places for a block (mm) all over a space, free or not, every so many mm. */
export function* candidateBoxes(
  { area }: OccupiedSpace,
  width: number,
  height: number,
  step = STEP_MM,
): Generator<Box> {
  const ys = steps(area.bottom, area.top - height, step);
  for (const x of steps(area.left, area.right - width, step))
    for (const y of ys) yield boxAt({ x, y }, width, height);
}

export const squaredDistance = (wished: Point, { left, bottom }: Box): number =>
  (left - wished.x) ** 2 + (bottom - wished.y) ** 2;

/** A free place for a block (mm), its lower left corner as near as possible to a wished one. */
export function nearestFree(space: OccupiedSpace, wished: Point, width: number, height: number) {
  const { left, right, bottom, top } = space.area;
  const byDistance = (all: number[], to: number): number[] =>
    all.sort((a, b) => Math.abs(a - to) - Math.abs(b - to) || a - b);
  const ys = byDistance(steps(bottom, top - height), wished.y);
  let [best, nearest]: [Point | undefined, number] = [undefined, Number.POSITIVE_INFINITY];
  for (const x of byDistance(steps(left, right - width), wished.x)) {
    const squaredAside = (x - wished.x) ** 2;
    if (squaredAside >= nearest) break;
    const y = ys.find((one) => {
      const squared = squaredAside + (one - wished.y) ** 2;
      return squared >= nearest || isCornerFree(space, x, one, width, height);
    });
    if (y === undefined || squaredAside + (y - wished.y) ** 2 >= nearest) continue;
    [best, nearest] = [{ x, y }, squaredAside + (y - wished.y) ** 2];
  }
  return best && boxAt(best, width, height);
}

export function placeNear(space: OccupiedSpace, wished: Point, block: Block): Item[] | undefined {
  const box = nearestFree(space, wished, block.width, block.height);
  if (!box) return undefined;
  space.occupied.push(box);
  return block.draw(box);
}
