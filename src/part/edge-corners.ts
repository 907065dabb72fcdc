import type { Point } from '../curves/geometry/point.ts';
import { edgeEnd, edgeStart } from './edge.ts';
import { lowerFirst } from './outline/outline.ts';
import type { Part, PartEdge } from './part.ts';

/** Of a part with two edges the one nearer the reference line, judged half-way along. */
export function lowerEdge({ edges }: Pick<Part, 'edges'>): PartEdge {
  const [edge, other] = edges;
  return other ? lowerFirst([edge, other])[0] : edge;
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
