import { paramCurve } from '../../curves/geometry/evaluate.ts';
import type { CuttingJoint } from '../../job/joints/joint-kinds.ts';
import { jointShape } from '../../job/joints/joint-kinds.ts';
import type { JointFrame, WoodPlace } from './joint-frame.ts';

/** A joint as the wood that it removes. */
export interface JointInWood {
  readonly joint: CuttingJoint;
  readonly frame: JointFrame;
  /** As far as there is wood, mm. */
  readonly depth: number;
}

/** Places on the surface of a joint this near each other find a wall to a fraction of a millimeter. */
const STEP_MM = 2;
const MAX_STEPS = 48;

/** The wood between two joints that start on different sides, mm; below 0 where they run into each other. */
export function wallInWood(one: JointInWood, other: JointInWood, enough: number): number {
  if (clearanceOf(one, other) > enough) return Number.POSITIVE_INFINITY;
  return Math.min(leastDistance(one, other), leastDistance(other, one));
}

/** Of the spheres around them. */
function clearanceOf(one: JointInWood, other: JointInWood): number {
  const [a, b] = [sphereAround(one), sphereAround(other)];
  const between = Math.hypot(a.x - b.x, a.y - b.y, a.depth - b.depth);
  return between - a.radius - b.radius;
}

function sphereAround(joint: JointInWood) {
  const middle = joint.frame.place(joint.joint.at, joint.depth / 2);
  const places = surfacePlaces(joint, 1);
  const far = places.map(({ x, y, depth }) => Math.hypot(x - middle.x, y - middle.y, depth - middle.depth));
  // Between two places on a round outline it bulges by less than half their distance.
  return { ...middle, radius: Math.max(...far) + STEP_MM };
}

const leastDistance = (one: JointInWood, other: JointInWood): number =>
  Math.min(...surfacePlaces(other).map((place) => signedDistance(one, place)));

/** From a place in the wood to a joint, mm; below 0 inside. */
function signedDistance({ joint, frame, depth }: JointInWood, place: WoodPlace): number {
  const { at, into } = frame.find(place);
  const aside = jointShape(joint, Math.min(Math.max(into, 0), depth)).signedDistance(at);
  const beyond = Math.max(-into, into - depth);
  return Math.hypot(Math.max(aside, 0), Math.max(beyond, 0)) + Math.min(Math.max(aside, beyond), 0);
}

const stepsFor = (length: number): number => Math.min(MAX_STEPS, Math.max(1, Math.ceil(length / STEP_MM)));

/** Round its outline at depths from the opening to the bottom, with its axis. */
function surfacePlaces({ joint, frame, depth }: JointInWood, levels: number = stepsFor(depth)): WoodPlace[] {
  return Array.from({ length: levels + 1 }, (_, i) => (depth * i) / levels).flatMap((into) => {
    const { outline, middle } = jointShape(joint, into);
    const around = outline.flatMap((segment) => {
      const on = paramCurve(segment);
      const steps = stepsFor(on(0).speed);
      return Array.from({ length: steps }, (_, k) => on(k / steps));
    });
    return [...around, middle].map((at) => frame.place(at, into));
  });
}
