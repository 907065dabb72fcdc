import { flatten } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { Part } from '../part.ts';
import { finishedLine } from '../part-lines.ts';

/** How far the chords of the outline may be from it, mm: names keep farther from the edges. */
const OUTLINE_CHORD_MM = 0.5;

/** Whether a place, mm on the part, is in the wood: a line square off it crosses the outline an odd number of times. */
export function woodTest({ shape }: Part): (place: Point) => boolean {
  const outline = flatten(finishedLine(shape), OUTLINE_CHORD_MM).filter(({ from, to }) => from.x !== to.x);
  return ({ x, y }) => {
    let isInside = false;
    for (const { from, to } of outline) {
      if (from.x > x === to.x > x) continue;
      if (from.y + ((to.y - from.y) * (x - from.x)) / (to.x - from.x) > y) isInside = !isInside;
    }
    return isInside;
  };
}
