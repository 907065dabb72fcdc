import { distance, type Point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { EndSide } from '../../job/job.ts';
import { cornersOnFace, edgeEnd, edgeStart } from '../edge.ts';
import { type BaseLine, SAME_OFFSET_MM, toBaseLine } from '../offsets.ts';
import type { Part, PartEdge } from '../part.ts';

/** Where the cut of an end leaves an edge short of where it was set out to, on the marked face. */
export interface CutEnd {
  readonly side: EndSide;
  readonly at: Point;
}

/** The cuts that leave an edge short: none of a line pattern, where an end is square, or at its long point. */
export function cutEnds(part: Pick<Part, 'edges' | 'ends'>, edge: PartEdge): CutEnd[] {
  const [left, right] = cornersOnFace(part, edge);
  return [
    { side: 'left' as const, at: left, setOut: edgeStart(edge) },
    { side: 'right' as const, at: right, setOut: edgeEnd(edge) },
  ].flatMap(({ side, at, setOut }) => (distance(at, setOut) > JOIN_MM ? [{ side, at }] : []));
}

/** Whether a station of an edge lies past such a cut: the line was set out there, and its wood goes with the end. */
export const isCutOff = (cuts: readonly CutEnd[], station: number, base?: BaseLine): boolean =>
  cuts.some(({ side, at }) => {
    const past = station - toBaseLine(at, base).x;
    return (side === 'left' ? -past : past) > SAME_OFFSET_MM;
  });
