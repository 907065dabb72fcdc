import { type Box, pathBounds } from '../../curves/geometry/bounds.ts';
import { lineCrossings } from '../../curves/geometry/line-crossings.ts';
import type { Piece, Segment } from '../../curves/geometry/pieces/piece.ts';
import { add, type Point, point, scale, toPoint } from '../../curves/geometry/point.ts';
import { polygon } from '../../curves/geometry/transform.ts';
import {
  type CuttingJoint,
  isCuttingJoint,
  type Joint,
  jointPoint,
  jointShape,
} from '../../job/joints/joint-kinds.ts';
import { isOnEdge } from '../../job/joints/joint-side.ts';
import type { Part } from '../part.ts';
import { finishedLine } from '../part-lines.ts';
import { type JointEdge, type JointGround, jointEdge, jointFrame } from './joint-frame.ts';

/** The places of an edge where a joint starts and ends, and its middle. */
export interface EdgeMarks extends Pick<JointEdge, 'inward'> {
  readonly start: Point;
  readonly middle: Point;
  readonly end: Point;
  /** From the reference face to its nearer and its farther side, mm. */
  readonly near?: number;
  readonly far?: number;
}

/** Undefined for a joint that is on a face, or beyond the edge. */
export function edgeMarks(joint: Joint, part: JointGround): EdgeMarks | undefined {
  const frame = jointFrame(joint, part);
  const onEdge = frame?.onEdge;
  if (!frame || !onEdge) return undefined;
  const { at: middle, inward } = onEdge;
  const bare = { inward, start: middle, middle, end: middle };
  if (!isCuttingJoint(joint)) return bare;
  const { left, right, bottom, top } = jointExtent(joint);
  const mouth = (x: number): Point => {
    const at = frame.place(point(x, joint.at.y), 0);
    return add(at, scale(inward, mouthDepth(onEdge.edge.pieces, at, inward) ?? 0));
  };
  return { ...bare, start: mouth(left), end: mouth(right), near: bottom, far: top };
}

/** Where a joint is seen from above: on a face its middle, on an edge its place; undefined for a line over the whole face. */
export const jointPlanPoint = (joint: Joint, part: JointGround): Point | undefined =>
  isOnEdge(joint) ? jointEdge(joint, part)?.at : jointPoint(joint);

/** How far a joint is sunk, as far as there is wood: mm. */
export function sunkDepth(
  joint: CuttingJoint,
  part: Pick<Part, 'edges' | 'stock' | 'shape'>,
): number | undefined {
  const onEdge = jointEdge(joint, part);
  const wood = onEdge
    ? mostOf(lineCrossings(finishedLine(part.shape), onEdge.at, onEdge.inward))
    : part.stock?.thickness;
  return wood === undefined ? joint.depth : Math.min(joint.depth ?? wood, wood);
}

const mostOf = (depths: readonly number[]): number | undefined =>
  depths.length > 0 ? Math.max(...depths) : undefined;

/** What a joint removes, as seen from above: on an edge its opening as deep as it is sunk. */
export function planOutline(
  joint: CuttingJoint,
  part: Pick<Part, 'edges' | 'stock' | 'shape'>,
): readonly Segment[] {
  const frame = jointFrame(joint, part);
  const depth = sunkDepth(joint, part);
  if (!frame?.onEdge || depth === undefined) return jointShape(joint).outline;
  const { left, right } = jointExtent(joint);
  const at = (x: number, into: number): Point => toPoint(frame.place(point(x, joint.at.y), into));
  // From outside the edge, so that a section crosses it twice where the edge is hollow.
  return polygon([at(left, -depth), at(right, -depth), at(right, depth), at(left, depth)]);
}

/** Of its opening, or at a depth under it (mm), in its own plane. */
export const jointExtent = (joint: CuttingJoint, into = 0): Box =>
  pathBounds(jointShape(joint, into).outline);

/** From a place beside the edge square to where the edge is, mm; on a hollow edge it is in the wood already. */
export function mouthDepth(pieces: readonly Piece[], at: Point, inward: Point): number | undefined {
  const crossings = lineCrossings(pieces, at, inward);
  return crossings.length === 0 ? undefined : crossings.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
}
