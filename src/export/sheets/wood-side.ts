import type { Point } from '../../curves/geometry/point.ts';
import { offsetsAtStation } from '../drawing/dimensions.ts';
import type { SheetContext } from './sheet-context.ts';

/** Whether a place, mm on the part, is between the edges. */
export function isInWood({ part }: Pick<SheetContext, 'part'>, { x, y }: Point): boolean {
  const offsets = offsetsAtStation(part, x);
  return offsets.length > 1 && y > Math.min(...offsets) && y < Math.max(...offsets);
}

/**
 * Which way the wood is from a place on an edge: up (1) or down (−1). Of a form that way is its own body; of any other
 * single curve the chord's side.
 */
export function woodSide({ part, notes }: Pick<SheetContext, 'part' | 'notes'>, { x, y }: Point): 1 | -1 {
  if (notes?.sides) return notes.sides[0].startsWith('FORM') ? 1 : -1;
  const offsets = offsetsAtStation(part, x);
  const middle = offsets.reduce((sum, one) => sum + one, 0) / Math.max(1, offsets.length);
  return y >= middle ? -1 : 1;
}
