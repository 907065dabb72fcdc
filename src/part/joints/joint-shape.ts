import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import {
  add,
  direction,
  dot,
  leftNormal,
  type Point,
  point,
  scale,
  subtract,
} from '../../curves/geometry/point.ts';
import { polygon } from '../../curves/geometry/transform.ts';
import type { Joint, Lean, Recess } from '../../job/job.ts';

/** What a joint takes out of the face. */
export interface JointShape {
  /** Closed and contiguous, counter-clockwise. */
  readonly outline: readonly Segment[];
  readonly middle: Point;
  /** How far a point lies from the joint, mm; below 0 inside it. */
  readonly signedDistance: (at: Point) => number;
}

/** A joint that takes wood away; a line or a mark takes none. */
export type CuttingJoint = Extract<Joint, { kind: 'mortise' | 'slot' | 'hole' }>;

export const isCuttingJoint = (joint: Joint): joint is CuttingJoint =>
  joint.kind === 'mortise' || joint.kind === 'slot' || joint.kind === 'hole';

/** The joint on the face, or at a depth under it, where a leaning hole has moved sideways. */
export function jointShape(joint: CuttingJoint, depth = 0): JointShape {
  switch (joint.kind) {
    case 'mortise':
      return mortiseShape(joint);
    case 'slot':
      return slotShape(joint);
    case 'hole':
      return holeShape(add(joint.at, leanShift(joint.lean, depth)), joint.diameter / 2, joint.lean);
  }
}

const LEAN_DIRECTIONS = {
  right: point(1, 0),
  left: point(-1, 0),
  out: point(0, 1),
  in: point(0, -1),
} as const;

/** How far a leaning hole's axis has moved at a depth under the face. */
export const leanShift = (lean: Lean | undefined, depth: number): Point =>
  lean ? scale(LEAN_DIRECTIONS[lean.toward], depth * Math.tan(lean.by)) : point(0, 0);

function mortiseShape({ at, length, width, turn }: Recess): JointShape {
  const { place, local } = recessFrame(at, turn);
  const [x, y] = [length / 2, width / 2];
  const corners = [point(-x, -y), point(x, -y), point(x, y), point(-x, y)].map(place);
  return {
    outline: polygon(corners),
    middle: at,
    signedDistance: (p) => {
      const q = local(p);
      const [dx, dy] = [Math.abs(q.x) - x, Math.abs(q.y) - y];
      return Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0);
    },
  };
}

function slotShape({ at, length, width, turn }: Recess): JointShape {
  const { place, local } = recessFrame(at, turn);
  const [reach, radius] = [(length - width) / 2, width / 2];
  const end = (side: 1 | -1): Segment => ({
    type: 'arc',
    centre: place(point(side * reach, 0)),
    radius,
    start: turn - (side * Math.PI) / 2,
    sweep: Math.PI,
  });
  const side = (y: number, way: 1 | -1): Segment => ({
    type: 'line',
    from: place(point(-way * reach, y)),
    to: place(point(way * reach, y)),
  });
  return {
    outline: [side(-radius, 1), end(1), side(radius, -1), end(-1)],
    middle: at,
    signedDistance: (p) => {
      const q = local(p);
      return Math.hypot(Math.max(Math.abs(q.x) - reach, 0), q.y) - radius;
    },
  };
}

/**
 * A hole is marked as the drill is round. A leaning drill opens an ellipse longer by 1/cos of its lean: what stands
 * beside it is held off the slot round that ellipse.
 */
function holeShape(centre: Point, radius: number, lean: Lean | undefined): JointShape {
  const longer = scale(lean ? LEAN_DIRECTIONS[lean.toward] : point(0, 0), radius * (leanStretch(lean) - 1));
  return {
    outline: [{ type: 'arc', centre, radius, start: 0, sweep: 2 * Math.PI }],
    middle: centre,
    signedDistance: (p) => {
      const { x, y } = subtract(p, centre);
      const [past, aside] = [Math.abs(longer.x), Math.abs(longer.y)];
      return Math.hypot(Math.max(Math.abs(x) - past, 0), Math.max(Math.abs(y) - aside, 0)) - radius;
    },
  };
}

/** How many times as large as the drill's own round is what it opens in the face. */
export const leanStretch = (lean: Lean | undefined): number => (lean ? 1 / Math.cos(lean.by) : 1);

/** A recess's own frame: x along it, y across, from its middle. */
function recessFrame(at: Point, turn: number) {
  const way = direction(turn);
  return {
    place: ({ x, y }: Point): Point => add(at, add(scale(way, x), scale(leftNormal(way), y))),
    local: (p: Point): Point => {
      const q = subtract(p, at);
      return point(dot(q, way), dot(q, leftNormal(way)));
    },
  };
}
