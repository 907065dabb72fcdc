import { point } from '../../curves/geometry/point.ts';
import { polygon } from '../../curves/geometry/transform.ts';
import type { JointKind, JointShape } from './joint-kind.ts';
import { RECESS, type Recess, readRecess, recessFrame } from './recess.ts';

export const mortise: JointKind<Recess> = {
  ...RECESS,
  read: readRecess,
  shape,
  lines: (joint) => [{ style: 'joint', path: shape(joint).outline, closed: true }],
};

function shape(joint: Recess): JointShape {
  const { toFace, toRecess } = recessFrame(joint);
  const [x, y] = [joint.length / 2, joint.width / 2];
  return {
    outline: polygon([point(-x, -y), point(x, -y), point(x, y), point(-x, y)].map(toFace)),
    middle: joint.at,
    signedDistance: (p) => {
      const q = toRecess(p);
      const [dx, dy] = [Math.abs(q.x) - x, Math.abs(q.y) - y];
      return Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0);
    },
  };
}
