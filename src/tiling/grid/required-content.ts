import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { polygon } from '../../curves/geometry/transform.ts';
import type { Joint } from '../../job/joints/joint-kinds.ts';
import { isCuttingJoint, jointOrigin, jointPoint, jointShape } from '../../job/joints/joint-kinds.ts';
import { isOnEdge } from '../../job/joints/joint-side.ts';
import { endStrips } from '../../part/ends/fold-tabs.ts';
import { edgeMarks, jointPlanPoint } from '../../part/joints/edge-joint.ts';
import { offsetsAt } from '../../part/offsets.ts';
import type { Part } from '../../part/part.ts';

/** Half the room that a point marked on the face takes, mm: the arms of its cross. */
const MARK_REACH_MM = 5;

/** What must be on paper whole besides the lines to cut: joints and fold tabs. */
export const requiredSegments = (part: Part): Segment[] => [
  ...shownJoints(part).flatMap((joint) => [...jointOutline(part, joint), ...linkToNearestEdge(part, joint)]),
  ...endStrips(part).flatMap(({ outline }) => polygon(outline)),
];

export const jointPoints = (part: Part): Point[] =>
  shownJoints(part).flatMap((joint) => {
    const at = jointPlanPoint(joint, part);
    return at
      ? [at, ...jointOutline(part, joint).flatMap((one) => (one.type === 'line' ? [one.from] : []))]
      : [];
  });

export const shownJoints = ({ joints, shape }: Part): readonly Joint[] =>
  shape.type === 'half'
    ? joints.filter((joint) => (jointOrigin(joint).at ?? Number.NEGATIVE_INFINITY) <= shape.centre[0].x)
    : joints;

function jointOutline(part: Part, joint: Joint): readonly Segment[] {
  const marks = edgeMarks(joint, part);
  if (marks) return [lineSegment(marks.start, marks.middle), lineSegment(marks.middle, marks.end)];
  if (isCuttingJoint(joint)) return jointShape(joint).outline;
  const at = jointPoint(joint);
  if (!at) return [];
  const end = (x: number, y: number): Point => point(at.x + x * MARK_REACH_MM, at.y + y * MARK_REACH_MM);
  return [lineSegment(end(-1, 0), end(1, 0)), lineSegment(end(0, -1), end(0, 1))];
}

/** From a joint square to the nearest edge: the sheets between are printed, so that all sheets join. */
function linkToNearestEdge({ edges }: Part, joint: Joint): Segment[] {
  const at = isOnEdge(joint) ? undefined : jointPoint(joint);
  const offsets = at ? edges.flatMap((edge) => offsetsAt(edge, at.x)) : [];
  if (!at || offsets.length === 0) return [];
  const nearest = offsets.reduce((a, b) => (Math.abs(b - at.y) < Math.abs(a - at.y) ? b : a));
  return [lineSegment(at, point(at.x, nearest))];
}

const lineSegment = (from: Point, to: Point): Segment => ({ type: 'line', from, to });
