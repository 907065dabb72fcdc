import type { Point } from '../../curves/geometry/point.ts';
import type { ShowLength } from '../../units/fault.ts';
import { centerLine } from './center-line.ts';
import { hole } from './hole.ts';
import type { JointFace, JointKind, JointLine, JointShape, JointView, Lean } from './joint-kind.ts';
import type { OnSide } from './joint-side.ts';
import { mark } from './mark.ts';
import { mortise } from './mortise.ts';
import { slot } from './slot.ts';

/** Every kind of joint, by its name in the job file, in the order that messages list them. */
export const JOINT_KINDS = { mortise, hole, slot, 'center-line': centerLine, mark };

export type JointKindName = keyof typeof JOINT_KINDS;
export const JOINT_NAMES = Object.keys(JOINT_KINDS) as JointKindName[];
type MeasuresOf<Kind> = Kind extends JointKind<infer Measures> ? Measures : never;

type JointOf<Kind extends JointKindName> = MeasuresOf<(typeof JOINT_KINDS)[Kind]> & { readonly kind: Kind };

export type Joint = {
  readonly key: string;
  readonly label?: string;
} & OnSide &
  {
    [Kind in JointKindName]: JointOf<Kind>;
  }[JointKindName];

/** A joint that removes wood; without a depth (mm), right through. */
export type CuttingJoint = Extract<Joint, { readonly at: Point }> & { readonly depth?: number };

/** The record of its own kind takes this joint, which the compiler cannot follow through the union. */
const viewOf = ({ kind }: Joint): JointView<Joint> => JOINT_KINDS[kind] as JointView<never>;

export const isCuttingJoint = (joint: Joint): joint is CuttingJoint => viewOf(joint).shape !== undefined;

export const jointOrigin = (joint: Joint) => viewOf(joint).place(joint);

/** Its middle on the face; undefined for a line over the whole face. */
export function jointPoint(joint: Joint): Point | undefined {
  const { at, out } = jointOrigin(joint);
  return at === undefined || out === undefined ? undefined : { x: at, y: out };
}

/** "2 × 3/8, 1 deep"; empty for a line or a mark. */
export const jointSize = (joint: Joint, show: ShowLength): string =>
  (viewOf(joint).size?.(joint, show) ?? []).join(', ');

export const drawJoint = (joint: Joint, face: JointFace): readonly JointLine[] =>
  viewOf(joint).lines(joint, face);

export const jointLengths = (joint: Joint): readonly number[] => viewOf(joint).lengths?.(joint) ?? [];

export const jointAngles = (joint: Joint, side: 1 | -1): readonly number[] =>
  viewOf(joint).angles?.(joint, side) ?? [];

/** The joint on the face, or at a depth under it (mm), where a leaning hole has moved sideways. */
export function jointShape(joint: CuttingJoint, depth = 0): JointShape {
  const shape = viewOf(joint).shape?.(joint, depth);
  if (!shape) throw new Error(`a ${joint.kind} takes no wood`);
  return shape;
}

export const jointLean = (joint: Joint): Lean | undefined => viewOf(joint).lean?.(joint);
