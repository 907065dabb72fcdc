import type { Point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { FORM_SIDE, type PatternNotes } from '../cover/pattern-notes.ts';
import { offsetsAtStation } from '../drawing/dimensions.ts';

/**
 * Which way the wood is from a place on an edge: up (1) or down (−1). Of a form that way is its own body; of any other
 * single curve the chord's side.
 */
export function woodSide(
  { part, notes }: { readonly part: Part; readonly notes?: PatternNotes },
  { x, y }: Point,
): 1 | -1 {
  if (notes?.sides) return notes.sides[0] === FORM_SIDE ? 1 : -1;
  const offsets = offsetsAtStation(part, x);
  const middle = offsets.reduce((sum, one) => sum + one, 0) / Math.max(1, offsets.length);
  return y >= middle ? -1 : 1;
}
