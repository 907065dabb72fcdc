import type { Box } from '../curves/curve.ts';
import type { Point } from '../curves/point.ts';
import { overlap } from '../tiling/checks.ts';
import { CHORD_MM, type Chord, grown } from '../tiling/chords.ts';

/**
 * Room on one sheet: the rectangle that words and bars may fill, and what is taken in it already.
 * `taken` grows as things are placed; nothing placed covers a line to cut, a mark or another word.
 */
export interface Room {
  readonly area: Box;
  readonly taken: Box[];
}

/** How finely free places are sought, mm. */
const STEP_MM = 2.5;

/** A slanting line is taken as a row of boxes no thicker than this, mm: thinner finds no more room. */
const STRIP_MM = 3;

/** Boxes that hold a line, with white on both sides. */
export const strips = (lines: readonly Chord[], white: number): Box[] =>
  lines.flatMap(({ from, to }) => {
    const parts = Math.max(
      1,
      Math.ceil(Math.min(Math.abs(to.x - from.x), Math.abs(to.y - from.y)) / STRIP_MM),
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
      return grown(box, white + CHORD_MM);
    });
  });

export const isFree = (room: Room, box: Box): boolean =>
  box.left >= room.area.left &&
  box.right <= room.area.right &&
  box.bottom >= room.area.bottom &&
  box.top <= room.area.top &&
  !room.taken.some((taken) => overlap(taken, box));

export const boxAt = ({ x, y }: Point, width: number, height: number): Box => ({
  left: x,
  right: x + width,
  bottom: y,
  top: y + height,
});

/** The first of some boxes that is free, taken from then on. */
export function takeFirst(room: Room, boxes: Iterable<Box>): Box | undefined {
  for (const box of boxes)
    if (isFree(room, box)) {
      room.taken.push(box);
      return box;
    }
  return undefined;
}

/** Where a block may stand in a room, taken or not: all over it. */
export function spotsIn({ area }: Room, width: number, height: number): Box[] {
  const steps = (low: number, high: number): number[] =>
    high < low
      ? []
      : [
          ...Array.from({ length: Math.floor((high - low) / STEP_MM) + 1 }, (_, i) => low + i * STEP_MM),
          high,
        ];
  const ys = steps(area.bottom, area.top - height);
  return steps(area.left, area.right - width).flatMap((x) => ys.map((y) => boxAt({ x, y }, width, height)));
}

/** How far a block's lower left corner stands from a wished one, squared. */
export const farFrom = (wished: Point, { left, bottom }: Box): number =>
  (left - wished.x) ** 2 + (bottom - wished.y) ** 2;

/** A free place for a block, its lower left corner as near as can be to a wished one. */
export function nearestFree(room: Room, wished: Point, width: number, height: number): Box | undefined {
  let [best, nearest]: [Box | undefined, number] = [undefined, Number.POSITIVE_INFINITY];
  for (const box of spotsIn(room, width, height)) {
    const far = farFrom(wished, box);
    if (far < nearest && isFree(room, box)) [best, nearest] = [box, far];
  }
  return best;
}

/** The same, taken from then on. */
export function takeNear(room: Room, wished: Point, width: number, height: number): Box | undefined {
  const box = nearestFree(room, wished, width, height);
  if (box) room.taken.push(box);
  return box;
}
