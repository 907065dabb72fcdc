import { dot, type Point, point } from '../../curves/geometry/point.ts';
import type { Joint } from '../../job/joints/joint-kinds.ts';
import { isOnEdge } from '../../job/joints/joint-side.ts';
import type { CompoundAngles } from '../ends/compound-angles.ts';
import type { Part } from '../part.ts';
import { type JointGround, jointEdge } from './joint-frame.ts';

/**
 * Level joints by the angle that they are turned. Plumb is along (1, tan rake, tan splay), the last toward the reader. A
 * level line on a face is square to plumb as seen on that face, so the ends of a joint turned to it are level.
 */
export function withLevelAngles({ joints, ends, ...ground }: LevelGround): readonly Joint[] {
  const angles = ends?.[0].angles;
  if (!angles) return joints;
  return joints.map((joint) =>
    'level' in joint && joint.level ? { ...joint, turn: plumbOn(joint, ground, angles) } : joint,
  );
}

type LevelGround = JointGround & Pick<Part, 'joints' | 'ends'>;

/** The direction of plumb in the plane of a joint, radians from along the part toward where its `out` grows. */
function plumbOn(joint: Joint, ground: JointGround, { rake, splay }: CompoundAngles): number {
  const onFace: Point = point(1, Math.tan(rake));
  if (!isOnEdge(joint)) return rake;
  const edge = jointEdge(joint, ground);
  return edge ? Math.atan2(-Math.tan(splay), dot(onFace, edge.along)) + 0 : 0;
}
