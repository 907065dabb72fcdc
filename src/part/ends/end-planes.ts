import type { CurvePoint } from '../../curves/geometry/evaluate.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { type EndAngles, type EndSetting, type EndSide, isParallelEdge, type Job } from '../../job/job.ts';
import { firstOf } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import type { ClipPlane } from './clip-pieces.ts';
import { type CompoundAngles, compoundAngles } from './compound-angles.ts';

/**
 * The plane of an end's cut: (station + tan rake · offset − tan splay · depth) · cos rake = reach, depth into the wood.
 * The cosine keeps a level cut, a rake of a right angle, finite.
 */
export interface EndPlane {
  readonly side: EndSide;
  readonly angles: CompoundAngles;
  readonly reach: number;
  /** How the job tells the angles. */
  readonly by: EndSetting['by'];
  /** In the job file. */
  readonly key: string;
}

export type EndPlanes = Readonly<Record<EndSide, EndPlane>>;

export interface PartEnd extends EndPlane {
  /** The cut line on the marked face, from the lower edge to the upper one. */
  readonly face: readonly [low: Point, high: Point];
  /** The same on the other face; the face's own where the cut is square through the wood. */
  readonly back: readonly [low: Point, high: Point];
}

/**
 * Edges are set out to the long point: those of two drawn edges, or that of the edge that a parallel is taken of.
 * @throws Fault `ends.no-thickness` for a bevel in stock of unknown thickness
 */
export function makeEndPlane(job: Job, side: EndSide, corners: readonly CurvePoint[]): EndPlane {
  const key = job.stands ? 'stands' : `ends.${side}`;
  const setting = job.ends?.[side] ?? { by: job.edges.some(isParallelEdge) ? 'curve' : 'square' };
  const angles = compoundAngles(endAngles(setting, job, side, firstOf(corners).angle));
  const thickness = job.stock?.thickness;
  if (angles.splay !== 0 && thickness === undefined)
    throw new Fault(
      'ends.no-thickness',
      'this bevel needs the thickness of the wood. Write "thickness: 1 3/4" under stock.',
      key,
    );
  const reaches = corners.flatMap(({ x, y }) =>
    [0, thickness ?? 0].map((depth) => placeAlong(angles, { x, y }, depth)),
  );
  return {
    side,
    angles,
    by: setting.by,
    key,
    reach: side === 'right' ? Math.min(...reaches) : Math.max(...reaches),
  };
}

/** @throws Fault `ends.needs-parallel`, `ends.level` */
function endAngles(setting: EndSetting, { edges }: Job, side: EndSide, tangent: number): EndAngles {
  if (setting.by !== 'curve' && setting.by !== 'level') return setting;
  const key = `ends.${side}`;
  if (!edges.some(isParallelEdge))
    throw new Fault(
      'ends.needs-parallel',
      'this end needs a parallel edge. Write its angle, such as {miter: 6}.',
      key,
    );
  if (setting.by === 'curve') return { by: 'miter', miter: tangent, bevel: 0 };
  if (Math.abs(Math.sin(tangent)) < LEAST_CLIMB)
    throw new Fault('ends.level', 'the curve itself is level at this end. Cut it square to the curve.', key);
  // The wood is on the side from which the curve comes down to this end.
  return { by: 'miter', miter: (Math.sign(tangent) * Math.PI) / 2, bevel: 0 };
}

/** A level cut through a flatter curve would run along the part. */
const LEAST_CLIMB = Math.sin((15 * Math.PI) / 180);

export const isSquare = ({ angles }: { readonly angles: CompoundAngles }): boolean =>
  angles.rake === 0 && angles.splay === 0;

/** How far out a place is by the planes of these angles, mm square to the cut on the face. */
export const placeAlong = ({ rake, splay }: CompoundAngles, { x, y }: Point, depth: number): number =>
  Math.cos(rake) * (x - Math.tan(splay) * depth) + Math.sin(rake) * y;

/** The plane's line at a depth under the marked face, as a cut of the edges there. */
export function clipPlaneAt({ side, angles, reach, key }: EndPlane, depth: number): ClipPlane {
  const way = side === 'right' ? 1 : -1;
  return { signedDistance: (at) => way * (placeAlong(angles, at, depth) - reach), key };
}

export interface CutCorner extends Point {
  readonly on: 'face' | 'back' | 'both faces';
}

/** The corners of an end that reach farthest out and least far. */
export function longAndShortPoints({ side, face, back }: PartEnd): { long: CutCorner; short: CutCorner } {
  const corners = [
    ...face.map((at) => ({ ...at, on: 'face' as const })),
    ...back.map((at) => ({ ...at, on: 'back' as const })),
  ];
  const out = ({ x }: Point): number => (side === 'right' ? x : -x);
  const pick = (best: number): CutCorner => {
    const all = corners.filter((corner) => Math.abs(out(corner) - best) < JOIN_MM);
    const isOnBoth = new Set(all.map(({ on }) => on)).size > 1;
    return isOnBoth ? { ...firstOf(all), on: 'both faces' } : firstOf(all);
  };
  const reaches = corners.map(out);
  return { long: pick(Math.max(...reaches)), short: pick(Math.min(...reaches)) };
}

/** The four corners of the sawn end in its own plane, mm, those on the face first. */
export function trueShape({ face, back }: PartEnd, thickness: number): readonly [Point, Point, Point, Point] {
  const [a, b, c, d] = [
    { ...face[0], z: 0 },
    { ...face[1], z: 0 },
    { ...back[1], z: -thickness },
    { ...back[0], z: -thickness },
  ] as const;
  // Its sides on the face and the back are parallel; an end where the edges meet has one of no length, or both.
  const [onFace, onBack] = [subtract3(b, a), subtract3(c, d)];
  const along = unit3(dot3(onFace, onFace) < dot3(onBack, onBack) ? onBack : onFace);
  const towards = subtract3(d, a);
  const out = unit3(subtract3(towards, scale3(along, dot3(towards, along))));
  const place = (corner: Point3): Point => {
    const from = subtract3(corner, a);
    return point(dot3(from, along), dot3(from, out));
  };
  return [place(a), place(b), place(c), place(d)];
}

interface Point3 extends Point {
  readonly z: number;
}
const subtract3 = (a: Point3, b: Point3): Point3 => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z });
const scale3 = (a: Point3, k: number): Point3 => ({ x: a.x * k, y: a.y * k, z: a.z * k });
const dot3 = (a: Point3, b: Point3): number => a.x * b.x + a.y * b.y + a.z * b.z;
const unit3 = (a: Point3): Point3 => {
  const length = Math.sqrt(dot3(a, a));
  return length > 0 ? scale3(a, 1 / length) : { x: 0, y: 1, z: 0 };
};
