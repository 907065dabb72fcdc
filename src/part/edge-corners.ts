import type { Point } from '../curves/point.ts';
import { offsetAt } from './offsets.ts';
import { edgeEnd, edgeStart } from './outline.ts';
import type { Part, PartEdge } from './part.ts';

/** Of a part with two edges the one nearer the reference line, judged half-way along. */
export function lowerEdge({ edges }: Pick<Part, 'edges'>): PartEdge {
  const stations = edges.flatMap((edge) => [edgeStart(edge).x, edgeEnd(edge).x]);
  const middle = (Math.min(...stations) + Math.max(...stations)) / 2;
  const height = (edge: PartEdge): number =>
    offsetAt(edge, middle) ?? (edgeStart(edge).y + edgeEnd(edge).y) / 2;
  return edges.reduce((a, b) => (height(b) < height(a) ? b : a));
}

/** Where an edge begins and ends on the marked face once the ends are cut. */
export function cornersOnFace(
  part: Pick<Part, 'edges' | 'ends'>,
  edge: PartEdge,
): readonly [from: Point, to: Point] {
  const { ends } = part;
  if (!ends) return [edgeStart(edge), edgeEnd(edge)];
  const which = edge === lowerEdge(part) ? 0 : 1;
  return [ends[0].face[which], ends[1].face[which]];
}
