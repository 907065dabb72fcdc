import { flatten } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import type { PatternNotes } from '../cover/pattern-notes.ts';
import { offsetsAtStation } from '../drawing/dimensions.ts';

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

/**
 * Which way the wood is from a place on an edge: up (1) or down (−1). Of a form that way is its own body; of any other
 * single curve the chord's side.
 */
export function woodSide(
  { part, notes }: { readonly part: Part; readonly notes?: PatternNotes },
  { x, y }: Point,
): 1 | -1 {
  if (notes?.sides) return notes.sides[0].startsWith('FORM') ? 1 : -1;
  const offsets = offsetsAtStation(part, x);
  const middle = offsets.reduce((sum, one) => sum + one, 0) / Math.max(1, offsets.length);
  return y >= middle ? -1 : 1;
}
