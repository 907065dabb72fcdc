import { distance, type Point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { EndSide } from '../../job/job.ts';
import { present } from '../../units/lists.ts';
import { cornersOnFace, edgeEnd, edgeStart } from '../edge.ts';
import { type BaseLine, SAME_OFFSET_MM, toBaseLine } from '../offsets.ts';
import type { Part, PartEdge } from '../part.ts';

export interface CutEnd {
  readonly side: EndSide;
  readonly at: Point;
}

/** The cuts that leave an edge short on the marked face: none of a line pattern, a square end or at a long point. */
export function cutEnds(part: Pick<Part, 'edges' | 'ends'>, edge: PartEdge): CutEnd[] {
  const [left, right] = cornersOnFace(part, edge);
  return present(
    distance(left, edgeStart(edge)) > JOIN_MM && { side: 'left', at: left },
    distance(right, edgeEnd(edge)) > JOIN_MM && { side: 'right', at: right },
  );
}

/** Whether the wood at a station of an edge goes with an end. */
export const isCutOff = (cuts: readonly CutEnd[], station: number, base?: BaseLine): boolean =>
  cuts.some(({ side, at }) => {
    const past = station - toBaseLine(at, base).x;
    return (side === 'left' ? -past : past) > SAME_OFFSET_MM;
  });
