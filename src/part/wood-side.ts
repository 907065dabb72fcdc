import { edgeEnd, edgeStart } from './edge.ts';
import { lowerEdge } from './edge-corners.ts';
import { offsetAt } from './offsets.ts';
import type { Part, PartEdge } from './part.ts';

/**
 * Whether the wood lies above an edge, where offsets grow: above the lower one of two, and of a single edge towards
 * the reference line.
 */
export const woodIsAbove = (part: Pick<Part, 'edges'>, edge: PartEdge): boolean =>
  part.edges.length > 1 ? edge === lowerEdge(part) : isBelowReference(edge);

/** Whether an edge lies below the reference line, judged half-way along. */
export function isBelowReference(edge: PartEdge): boolean {
  const [from, to] = [edgeStart(edge), edgeEnd(edge)];
  return (offsetAt(edge, (from.x + to.x) / 2) ?? from.y + to.y) < 0;
}
