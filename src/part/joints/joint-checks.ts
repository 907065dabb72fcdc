import { minimizeAlong } from '../../curves/geometry/extrema.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { isPointInPath } from '../../curves/geometry/point-in-path.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { JointShape } from '../../job/joints/joint-kind.ts';
import type { CuttingJoint, Joint } from '../../job/joints/joint-kinds.ts';
import { isCuttingJoint, jointLean, jointOrigin, jointShape } from '../../job/joints/joint-kinds.ts';
import { itemAt } from '../../units/checked.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { type Rule, showLength } from '../../units/rule.ts';

/** A thinner one splits when the joint is cut or driven home: common practice, no published source. */
const THIN_WALL_MM = 6;

const SEARCH_STEPS = 48;

export interface JointContext {
  readonly closed: boolean;
  readonly finished: readonly Segment[];
  readonly saw: readonly Segment[];
  /** The stations of a line pattern's ends. */
  readonly from: number;
  readonly to: number;
  /** Where it is not known, a leaning hole is judged on the face alone, and no depth. */
  readonly thickness?: number | undefined;
}

const shapesOnFaces = (joint: CuttingJoint, thickness: number | undefined): JointShape[] => [
  jointShape(joint),
  ...(jointLean(joint) && thickness !== undefined ? [jointShape(joint, joint.depth ?? thickness)] : []),
];

export function jointFaults(joints: readonly Joint[], ground: JointContext): Fault[] {
  const cutting = joints.filter(isCuttingJoint);
  return [
    ...joints.flatMap((joint) => findMisplacement(joint, ground) ?? []),
    ...cutting.flatMap((joint) => tooDeepFault(joint, ground) ?? []),
    ...pairsOf(cutting).flatMap(([one, other]) =>
      wallBetween(one, other, ground).width < 0 ? [overlapFault(one, other)] : [],
    ),
  ];
}

const pairsOf = <T>(all: readonly T[]): [T, T][] =>
  all.flatMap((one, i) => all.slice(i + 1).map((other): [T, T] => [one, other]));

function findMisplacement(joint: Joint, ground: JointContext): Fault | undefined {
  const { from, to } = ground;
  if (!isCuttingJoint(joint)) {
    const station = jointOrigin(joint).at ?? from;
    const isOutside = station < from - JOIN_MM || station > to + JOIN_MM;
    return isOutside ? outsideFault(joint, station, ground) : undefined;
  }
  const { x } = joint.at;
  if (!ground.closed) return x < from || x > to ? outsideFault(joint, x, ground) : undefined;
  for (const shape of shapesOnFaces(joint, ground.thickness)) {
    if (wallToPath(ground.finished, shape).width < 0)
      return placeFault('joint.across-edge', joint, ACROSS_EDGE_WORDS);
    if (isPointInPath(ground.finished, shape.middle)) continue;
    return ground.saw.length > 0 && isPointInPath(ground.saw, shape.middle)
      ? placeFault('joint.in-saw-line', joint, IN_SAW_LINE_WORDS)
      : outsideFault(joint, x, ground);
  }
  return undefined;
}

const ACROSS_EDGE_WORDS = 'runs across the finished edge. Move it into the part, or make it smaller.';
const IN_SAW_LINE_WORDS =
  'is in wood that you remove after sawing, outside the finished line. Move it into the part.';

/** Joints are on the reference face, with the whole thickness under it. */
function tooDeepFault(joint: CuttingJoint, { thickness }: JointContext): Fault | undefined {
  const { depth = 0 } = joint;
  if (thickness === undefined || depth <= thickness + JOIN_MM) return undefined;
  return new Fault(
    'joint.too-deep',
    (mm) =>
      `the ${jointName(joint)} at station ${mm(joint.at.x)} is ${mm(depth)} deep, but the wood is ${mm(thickness)} thick. ` +
      'Use a smaller depth. For a joint through the wood, remove "depth".',
    `${joint.key}.depth`,
  );
}

const jointName = ({ kind }: Joint): string => kind.replace('-', ' ');

const outsideFault = (joint: Joint, station: number, { from, to }: JointContext): Fault =>
  new Fault(
    'joint.outside',
    (mm) =>
      `the ${jointName(joint)} at station ${mm(station)} is outside the part, which runs from ${mm(from)} to ${mm(to)}. ` +
      'Measure from the left end and the reference line.',
    joint.key,
  );

const placeFault = (code: string, joint: CuttingJoint, problem: string): Fault =>
  new Fault(
    code,
    (mm) => `the ${jointName(joint)} at station ${mm(joint.at.x)}, offset ${mm(joint.at.y)} ${problem}`,
    joint.key,
  );

const overlapFault = (one: CuttingJoint, other: CuttingJoint): Fault =>
  new Fault(
    'joint.overlap',
    (mm) =>
      `the ${jointName(other)} at station ${mm(other.at.x)} runs into the ${jointName(one)} at station ${mm(one.at.x)}. ` +
      'Move one of them.',
    other.key,
  );

export function jointWarnings(joints: readonly Joint[], ground: JointContext, rule: Rule): Warning[] {
  const cutting = joints.filter(isCuttingJoint);
  const toEdge = ground.closed ? cutting.flatMap((joint) => edgeWarning(joint, ground, rule) ?? []) : [];
  const apart = pairsOf(cutting).flatMap(([one, other]) => {
    const { width } = wallBetween(one, other, ground);
    const between = `between the ${jointName(one)} at station ${showLength(one.at.x, rule)} and the ${jointName(other)} at ${showLength(other.at.x, rule)}`;
    return width < THIN_WALL_MM ? [thinWallWarning(width, between, rule)] : [];
  });
  return [...toEdge, ...apart];
}

function edgeWarning(joint: CuttingJoint, ground: JointContext, rule: Rule): Warning | undefined {
  const walls = shapesOnFaces(joint, ground.thickness).map((shape) => wallToPath(ground.finished, shape));
  const { width, at } = walls.reduce(narrower);
  const where = `between the ${jointName(joint)} and the edge at station ${showLength(at.x, rule)}`;
  return width < THIN_WALL_MM ? thinWallWarning(width, where, rule) : undefined;
}

const thinWallWarning = (width: number, where: string, rule: Rule): Warning => ({
  code: 'joint.thin-wall',
  message:
    `only ${showLength(width, rule)} of wood is left ${where}. Less than ${showLength(THIN_WALL_MM, rule)} splits easily. ` +
    'Move the joint, or make it smaller.',
});

interface Wall {
  /** Below 0 where a path runs through the joint. */
  readonly width: number;
  readonly at: Point;
}

const narrower = (a: Wall, b: Wall): Wall => (b.width < a.width ? b : a);

function wallToPath(path: readonly Segment[], { signedDistance }: JointShape): Wall {
  const places = path.map((segment) => minimizeAlong(segment, signedDistance, SEARCH_STEPS));
  return places.map((at): Wall => ({ width: signedDistance(at), at })).reduce(narrower);
}

function wallBetween(one: CuttingJoint, other: CuttingJoint, { thickness }: JointContext): Wall {
  const [mine, theirs] = [shapesOnFaces(one, thickness), shapesOnFaces(other, thickness)];
  const walls = mine.flatMap((shape, i) => {
    const opposite = itemAt(theirs, Math.min(i, theirs.length - 1));
    // One joint inside the other has no wall between them.
    const within = opposite.signedDistance(shape.middle) < 0 || shape.signedDistance(opposite.middle) < 0;
    return within ? { width: -1, at: shape.middle } : wallToPath(opposite.outline, shape);
  });
  return walls.reduce(narrower);
}
