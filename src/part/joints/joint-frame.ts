import { closestPoint } from '../../curves/geometry/closest-point.ts';
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
import { type Joint, jointOrigin } from '../../job/joints/joint-kinds.ts';
import { isOnEdge, OTHER_FACE } from '../../job/joints/joint-side.ts';
import { lowerEdge } from '../edge.ts';
import { offsetAt } from '../offsets.ts';
import type { Part, PartEdge } from '../part.ts';

/** A place in the wood: on the reference face by station and offset, and so deep under it, mm. */
export interface WoodPlace extends Point {
  readonly depth: number;
}

/**
 * The plane that a joint is laid out on. Its own places are by station and `out`; on an edge both are straight: along
 * the edge as it runs at the middle of the joint, and from the reference face down.
 */
export interface JointFrame {
  readonly place: (at: Point, into: number) => WoodPlace;
  readonly find: (place: WoodPlace) => { readonly at: Point; readonly into: number };
  /** Absent for a face. */
  readonly onEdge?: JointEdge;
}

export interface JointEdge {
  readonly edge: PartEdge;
  /** The place of the edge at the station of the joint. */
  readonly at: Point;
  /** Unit vectors along the edge to the right, and square into the wood. */
  readonly along: Point;
  readonly inward: Point;
}

const REFERENCE_FACE: JointFrame = {
  place: ({ x, y }, into) => ({ x, y, depth: into }),
  find: ({ x, y, depth }) => ({ at: point(x, y), into: depth }),
};

const otherFace = (thickness: number): JointFrame => ({
  place: ({ x, y }, into) => ({ x, y, depth: thickness - into }),
  find: ({ x, y, depth }) => ({ at: point(x, y), into: thickness - depth }),
});

export type JointGround = Pick<Part, 'edges' | 'stock'>;

/** Undefined where the edge does not reach the station of the joint, or the thickness that it needs is not known. */
export function jointFrame(joint: Joint, part: JointGround): JointFrame | undefined {
  if (joint.face === undefined) return REFERENCE_FACE;
  const thickness = part.stock?.thickness;
  if (joint.face === OTHER_FACE) return thickness === undefined ? undefined : otherFace(thickness);
  const onEdge = jointEdge(joint, part);
  return onEdge && edgeFrame(onEdge, jointOrigin(joint).at ?? onEdge.at.x);
}

function edgeFrame(onEdge: JointEdge, station: number): JointFrame {
  const { at: origin, along, inward } = onEdge;
  return {
    place: ({ x, y }, into) => ({
      ...add(origin, add(scale(along, x - station), scale(inward, into))),
      depth: y,
    }),
    find: (place) => {
      const from = subtract(place, origin);
      return { at: point(station + dot(from, along), place.depth), into: dot(from, inward) };
    },
    onEdge,
  };
}

/** A line along an edge has its place half-way along it. */
export function jointEdge(joint: Joint, part: JointGround): JointEdge | undefined {
  const edge = isOnEdge(joint) ? part.edges.find(({ name }) => name === joint.face) : undefined;
  if (!edge) return undefined;
  const station = jointOrigin(joint).at ?? middleStation(edge);
  const offset = offsetAt(edge, station);
  if (offset === undefined) return undefined;
  const at = point(station, offset);
  const along = direction(closestPoint(edge.pieces, at).at.angle);
  const out = leftNormal(along);
  return { edge, at, along, inward: edge === lowerEdge(part) ? out : scale(out, -1) };
}

function middleStation({ runs }: PartEdge): number {
  const stations = runs.flatMap(({ from, to }) => [from.x, to.x]);
  return (Math.min(...stations) + Math.max(...stations)) / 2;
}
