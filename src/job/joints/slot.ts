import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { add, direction, type Point, point, scale } from '../../curves/geometry/point.ts';
import type { Unit } from '../../units/unit.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';
import type { JointKind, JointShape } from './joint-kind.ts';
import { CROSS_PAST_MM, cross } from './joint-lines.ts';
import { RECESS, type Recess, readRecess, recessFrame } from './recess.ts';

/** A recess with round ends, as a router bit leaves it: the bit is set in the middle of each end. */
export const slot: JointKind<Recess> = {
  ...RECESS,
  read,
  shape,
  lines: (joint) => [
    { style: 'joint', path: shape(joint).outline, closed: true },
    ...endMiddles(joint).flatMap((at) => cross('axis', at, joint.width / 2 + CROSS_PAST_MM, joint.turn)),
  ],
};

function read(mapping: YamlMapping, unit: Unit): Recess | undefined {
  const recess = readRecess(mapping, unit);
  if (!recess || recess.length > recess.width) return recess;
  return mapping
    .get('length')
    ?.report('job.slot', 'a slot must be longer than it is wide. Use a larger length, or a hole.');
}

const endMiddles = ({ at, length, width, turn }: Recess): Point[] =>
  [1, -1].map((side) => add(at, scale(direction(turn), (side * (length - width)) / 2)));

function shape(joint: Recess): JointShape {
  const { at, length, width, turn } = joint;
  const { toFace, toRecess } = recessFrame(joint);
  const [reach, radius] = [(length - width) / 2, width / 2];
  const end = (side: 1 | -1): Segment => ({
    type: 'arc',
    centre: toFace(point(side * reach, 0)),
    radius,
    start: turn - (side * Math.PI) / 2,
    sweep: Math.PI,
  });
  const side = (y: number, way: 1 | -1): Segment => ({
    type: 'line',
    from: toFace(point(-way * reach, y)),
    to: toFace(point(way * reach, y)),
  });
  return {
    outline: [side(-radius, 1), end(1), side(radius, -1), end(-1)],
    middle: at,
    signedDistance: (p) => {
      const q = toRecess(p);
      return Math.hypot(Math.max(Math.abs(q.x) - reach, 0), q.y) - radius;
    },
  };
}
