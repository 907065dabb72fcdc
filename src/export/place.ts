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

/** A line to cut is taken as little boxes no longer than this, mm: shorter finds no more room. */
const STRIP_MM = 4;

/** Boxes that hold a line, with white on both sides. */
export const strips = (lines: readonly Chord[], white: number): Box[] =>
  lines.flatMap(({ from, to }) => {
    const parts = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / STRIP_MM));
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

/** Lower left corners for a block over the whole room, the nearest to a wished place first. */
export function spotsFrom(room: Room, wished: Point, width: number, height: number): Point[] {
  const { left, right, bottom, top } = room.area;
  const steps = (low: number, high: number): number[] =>
    high < low ? [] : [...Array(Math.floor((high - low) / STEP_MM) + 1).keys()].map((i) => low + i * STEP_MM);
  const ys = [...steps(bottom, top - height), top - height];
  const spots = [...steps(left, right - width), right - width].flatMap((x) =>
    ys.map((y) => ({ x, y, far: (x - wished.x) ** 2 + (y - wished.y) ** 2 })),
  );
  return spots.sort((a, b) => a.far - b.far);
}

/** A free place for a block, as near as can be to a wished lower left corner. */
export const takeNear = (room: Room, wished: Point, width: number, height: number): Box | undefined =>
  takeFirst(
    room,
    spotsFrom(room, wished, width, height).map((spot) => boxAt(spot, width, height)),
  );
