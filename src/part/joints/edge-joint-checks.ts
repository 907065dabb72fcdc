import { lineCrossings } from '../../curves/geometry/line-crossings.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { CuttingJoint } from '../../job/joints/joint-kinds.ts';
import type { Fault, Warning } from '../../units/fault.ts';
import { present } from '../../units/lists.ts';
import type { Rule } from '../../units/rule.ts';
import { showLength } from '../../units/rule.ts';
import { clipPlaneAt, type PartEnd } from '../ends/end-planes.ts';
import { jointExtent, mouthDepth } from './edge-joint.ts';
import { jointAt, outsideFault, overEdgeFault, thinWallWarning, tooDeepFault } from './joint-faults.ts';
import type { JointEdge, JointFrame } from './joint-frame.ts';

/** The part as far as a joint on its edge needs it. */
export interface EdgeGround {
  readonly ends: readonly [PartEnd, PartEnd];
  readonly thickness: number;
  /** The finished line at a depth under the reference face. */
  readonly outlineAt: (depth: number) => readonly Segment[];
  readonly stations: readonly [from: number, to: number];
}

export interface EdgeFrame extends JointFrame {
  readonly onEdge: JointEdge;
}

/** Rays into the wood across the opening of a joint: the other side bends little between them. */
const RAYS = 9;

export function edgeJointFault(joint: CuttingJoint, frame: EdgeFrame, ground: EdgeGround): Fault | undefined {
  const walls = wallsAround(joint, frame, ground);
  if (Math.min(walls.toReference, walls.toOther) < 0) return overEdgeFault(joint, ground.thickness);
  if (walls.toEnd < 0 || walls.wood === undefined) return outsideFault(joint, joint.at.x, ground.stations);
  const { depth = 0 } = joint;
  return depth > walls.wood + JOIN_MM ? tooDeepFault(joint, walls.wood, 'wide there') : undefined;
}

/** Where little wood is left beside a joint on an edge, or under it. */
export function edgeJointWarnings(
  joint: CuttingJoint,
  frame: EdgeFrame,
  ground: EdgeGround,
  rule: Rule,
): Warning[] {
  const { toReference, toOther, toEnd, wood } = wallsAround(joint, frame, ground);
  const name = `the ${jointAt(joint, joint.at.x, (mm) => showLength(mm, rule))}`;
  return present(
    thinWallWarning(toReference, `${name} and the reference face`, rule),
    thinWallWarning(toOther, `${name} and the other face`, rule),
    thinWallWarning(toEnd, `${name} and the end`, rule),
    wood !== undefined &&
      joint.depth !== undefined &&
      wood > joint.depth &&
      thinWallWarning(wood - joint.depth, `${name} and the opposite edge`, rule),
  );
}

/** The wood beside a joint and under it, mm: below 0 where it runs out. */
interface Walls {
  readonly toReference: number;
  readonly toOther: number;
  readonly toEnd: number;
  /** From the edge square across to the other side, at its narrowest; undefined where the edge has ended. */
  readonly wood: number | undefined;
}

function wallsAround(joint: CuttingJoint, frame: EdgeFrame, ground: EdgeGround): Walls {
  const wood = woodUnder(joint, frame, ground);
  const bottom = Math.min(joint.depth ?? Number.POSITIVE_INFINITY, wood ?? 0);
  const extents = [0, bottom].map((into) => ({ into, ...jointExtent(joint, into) }));
  const corners = extents.flatMap(({ into, left, right, bottom: near, top: far }) =>
    [left, right].flatMap((x) => [near, far].map((y) => frame.place(point(x, y), into))),
  );
  const toEnds = corners.flatMap(({ depth, ...at }) =>
    ground.ends.map((end) => -clipPlaneAt(end, depth).signedDistance(at) / squareness(end)),
  );
  return {
    toReference: Math.min(...extents.map(({ bottom: near }) => near)),
    toOther: Math.min(...extents.map(({ top: far }) => ground.thickness - far)),
    toEnd: Math.min(...toEnds),
    wood,
  };
}

/** A distance in the plane of the face over the one square to the cut. */
const squareness = ({ angles }: PartEnd): number =>
  Math.hypot(1, Math.cos(angles.rake) * Math.tan(angles.splay));

/** How much wood is behind an edge where a joint opens it, mm; undefined where a part of the opening is off the edge. */
export function woodUnder(
  joint: CuttingJoint,
  { place, onEdge }: EdgeFrame,
  { outlineAt }: Pick<EdgeGround, 'outlineAt'>,
): number | undefined {
  const { left, right } = jointExtent(joint);
  const outline = outlineAt(joint.at.y);
  const behind = Array.from({ length: RAYS }, (_, i) => {
    const x = left + ((right - left) * i) / (RAYS - 1);
    const at: Point = place(point(x, joint.at.y), 0);
    const mouth = mouthDepth(onEdge.edge.pieces, at, onEdge.inward);
    if (mouth === undefined) return undefined;
    const beyond = lineCrossings(outline, at, onEdge.inward).filter((s) => s > mouth + JOIN_MM);
    return beyond.length > 0 ? Math.min(...beyond) : undefined;
  });
  return behind.every((wood) => wood !== undefined) ? Math.min(...behind) : undefined;
}
