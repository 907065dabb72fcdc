import { parallelPath } from '../curves/parallel.ts';
import type { Segment } from '../curves/piece.ts';
import { FIT_MM } from '../curves/tolerance.ts';
import type { Part } from './part.ts';
import { isBelow } from './wood-side.ts';

/**
 * The true parallel of the finished line at a distance (mm), within `tolerance` of it: positive outside, in the
 * waste, where the saw line runs. A closed outline runs counter-clockwise, so that its outside is to the right;
 * a single edge has its waste away from the reference line.
 * @throws Fault `parallel.folds`, `parallel.no-room`
 */
export function parallelLine(
  { shape, exact, edges }: Pick<Part, 'shape' | 'exact' | 'edges'>,
  outside: number,
  tolerance = FIT_MM,
): Segment[] {
  const closed = shape.type === 'closed';
  const toTheRight = closed || isBelow(edges[0]);
  return parallelPath(exact, toTheRight ? -outside : outside, closed, tolerance);
}
