import { parallelPath } from '../curves/parallel.ts';
import type { Segment } from '../curves/piece.ts';
import { FIT_MM } from '../curves/tolerance.ts';
import { offsetAt } from './offsets.ts';
import { edgeEnd, edgeStart } from './outline.ts';
import type { Part, PartEdge } from './part.ts';

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
  const toTheRight = closed || isBelow(edges[0]!);
  return parallelPath(exact, toTheRight ? -outside : outside, closed, tolerance);
}

/** Whether an edge lies below the reference line, judged half-way along. */
export function isBelow(edge: PartEdge): boolean {
  const [from, to] = [edgeStart(edge), edgeEnd(edge)];
  return (offsetAt(edge, (from.x + to.x) / 2) ?? from.y + to.y) < 0;
}
