import { minimizeAlong } from '../../curves/geometry/extrema.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { isPointInPath } from '../../curves/geometry/point-in-path.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { JointShape } from '../../job/joints/joint-kind.ts';
import type { CuttingJoint, Joint } from '../../job/joints/joint-kinds.ts';
import { isCuttingJoint, jointLean, jointOrigin, jointShape } from '../../job/joints/joint-kinds.ts';
import { isOnEdge, OTHER_FACE } from '../../job/joints/joint-side.ts';
import { itemAt } from '../../units/checked.ts';
import type { Fault, Warning } from '../../units/fault.ts';
import { present } from '../../units/lists.ts';
import type { Rule } from '../../units/rule.ts';
import { outlineAtDepth } from '../outline/outline.ts';
import type { Part } from '../part.ts';
import {
  type EdgeFrame,
  type EdgeGround,
  edgeJointFault,
  edgeJointWarnings,
  woodUnder,
} from './edge-joint-checks.ts';
import * as faults from './joint-faults.ts';
import { type JointFrame, jointFrame } from './joint-frame.ts';
import { type JointInWood, wallInWood } from './joints-in-wood.ts';

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
  readonly part: Pick<Part, 'edges' | 'stock' | 'ends'>;
}

/** The opening of a joint and, where the wood is not the same there, its bottom, each with the finished line at its depth. */
function levelsOf(joint: CuttingJoint, ground: JointContext) {
  const { thickness } = ground;
  const opening = { shape: jointShape(joint), outline: outlineUnder(joint, 0, ground) };
  const isSame = !jointLean(joint) && !hasBevel(ground.part);
  if (isSame || thickness === undefined) return [opening];
  const into = Math.min(joint.depth ?? thickness, thickness);
  return [opening, { shape: jointShape(joint, into), outline: outlineUnder(joint, into, ground) }];
}

const outlineUnder = (joint: Joint, into: number, ground: JointContext): readonly Segment[] => {
  const { thickness = 0 } = ground;
  return finishedAt(ground, joint.face === OTHER_FACE ? thickness - into : into);
};

const finishedAt = ({ finished, part }: JointContext, depth: number): readonly Segment[] =>
  hasBevel(part) && depth > 0 ? outlineAtDepth(part, depth) : finished;

const hasBevel = ({ ends }: JointContext['part']): boolean =>
  ends?.some(({ angles }) => angles.splay !== 0) ?? false;

/** Joints on a side that is not there, outside the wood, too deep, or in each other. */
export function jointFaults(joints: readonly Joint[], ground: JointContext): Fault[] {
  const sound = joints.filter((joint) => !sideFault(joint, ground));
  const cutting = sound.filter(isCuttingJoint);
  const onFaces = cutting.filter((joint) => !isOnEdge(joint));
  return [
    ...joints.flatMap((joint) => sideFault(joint, ground) ?? []),
    ...sound.flatMap((joint) => findMisplacement(joint, ground) ?? []),
    ...onFaces.flatMap((joint) => tooDeepForFace(joint, ground) ?? []),
    ...pairsOf(cutting).flatMap(([one, other]) =>
      wallBetween(one, other, ground) < 0 ? [faults.overlapFault(one, other)] : [],
    ),
  ];
}

/** Why the side that a joint is on is not known. */
function sideFault(joint: Joint, { closed, thickness, part }: JointContext): Fault | undefined {
  if (joint.face === undefined) return undefined;
  const isKnown = !isOnEdge(joint) || (closed && part.edges.some(({ name }) => name === joint.face));
  if (!isKnown) return faults.noEdgeFault(joint);
  return thickness === undefined ? faults.noThicknessFault(joint) : undefined;
}

const pairsOf = <T>(all: readonly T[]): [T, T][] =>
  all.flatMap((one, i) => all.slice(i + 1).map((other): [T, T] => [one, other]));

function findMisplacement(joint: Joint, ground: JointContext): Fault | undefined {
  const { from, to } = ground;
  if (!isCuttingJoint(joint)) {
    const station = jointOrigin(joint).at ?? from;
    const isOutside = station < from - JOIN_MM || station > to + JOIN_MM;
    return isOutside ? faults.outsideFault(joint, station, [from, to]) : undefined;
  }
  if (isOnEdge(joint)) return misplacedOnEdge(joint, ground);
  const { x } = joint.at;
  if (!ground.closed) return x < from || x > to ? faults.outsideFault(joint, x, [from, to]) : undefined;
  for (const { shape, outline } of levelsOf(joint, ground)) {
    if (wallToPath(outline, shape).width < 0)
      return faults.placeFault('joint.across-edge', joint, faults.ACROSS_EDGE_WORDS);
    if (isPointInPath(outline, shape.middle)) continue;
    return ground.saw.length > 0 && isPointInPath(ground.saw, shape.middle)
      ? faults.placeFault('joint.in-saw-line', joint, faults.IN_SAW_LINE_WORDS)
      : faults.outsideFault(joint, x, [from, to]);
  }
  return undefined;
}

function misplacedOnEdge(joint: CuttingJoint, ground: JointContext): Fault | undefined {
  const found = onEdgeOf(joint, ground);
  return found
    ? edgeJointFault(joint, found.frame, found.ground)
    : faults.outsideFault(joint, joint.at.x, [ground.from, ground.to]);
}

function onEdgeOf(
  joint: CuttingJoint,
  context: JointContext,
): { readonly frame: EdgeFrame; readonly ground: EdgeGround } | undefined {
  const { part, thickness, from, to } = context;
  const { ends } = part;
  const frame = jointFrame(joint, part);
  if (!hasEdge(frame) || !ends || thickness === undefined) return undefined;
  const outlineAt = (depth: number) => finishedAt(context, depth);
  return { frame, ground: { ends, thickness, outlineAt, stations: [from, to] } };
}

const hasEdge = (frame: JointFrame | undefined): frame is EdgeFrame => frame?.onEdge !== undefined;

/** The whole thickness is under a face. */
function tooDeepForFace(joint: CuttingJoint, { thickness }: JointContext): Fault | undefined {
  if (thickness === undefined || (joint.depth ?? 0) <= thickness + JOIN_MM) return undefined;
  return faults.tooDeepFault(joint, thickness, 'thick');
}

export function jointWarnings(joints: readonly Joint[], ground: JointContext, rule: Rule): Warning[] {
  const cutting = joints.filter(isCuttingJoint);
  const toEdge = ground.closed ? cutting.flatMap((joint) => wallWarnings(joint, ground, rule)) : [];
  const apart = pairsOf(cutting).map(([one, other]) =>
    faults.thinWallWarning(wallBetween(one, other, ground), faults.wallBetweenWords(one, other, rule), rule),
  );
  return [...toEdge, ...present(...apart)];
}

function wallWarnings(joint: CuttingJoint, ground: JointContext, rule: Rule): Warning[] {
  if (isOnEdge(joint)) {
    const found = onEdgeOf(joint, ground);
    return found ? edgeJointWarnings(joint, found.frame, found.ground, rule) : [];
  }
  const walls = levelsOf(joint, ground).map(({ shape, outline }) => wallToPath(outline, shape));
  const { width, at } = walls.reduce(narrower);
  return present(faults.thinWallWarning(width, faults.wallToEdgeWords(joint, at.x, rule), rule));
}

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

/** mm; below 0 where they run into each other. */
function wallBetween(one: CuttingJoint, other: CuttingJoint, ground: JointContext): number {
  if (one.face === other.face && !isOnEdge(one)) return wallOnFace(one, other, ground);
  const [a, b] = [inWood(one, ground), inWood(other, ground)];
  return a && b ? wallInWood(a, b, faults.THIN_WALL_MM) : Number.POSITIVE_INFINITY;
}

function inWood(joint: CuttingJoint, ground: JointContext): JointInWood | undefined {
  const { thickness } = ground;
  const found = isOnEdge(joint) ? onEdgeOf(joint, ground) : undefined;
  const frame = jointFrame(joint, ground.part);
  const wood = found ? woodUnder(joint, found.frame, found.ground) : thickness;
  if (!frame || wood === undefined) return undefined;
  return { joint, frame, depth: Math.min(joint.depth ?? wood, wood) };
}

function wallOnFace(one: CuttingJoint, other: CuttingJoint, ground: JointContext): number {
  const [mine, theirs] = [levelsOf(one, ground), levelsOf(other, ground)];
  const walls = mine.map(({ shape }, i) => {
    const opposite = itemAt(theirs, Math.min(i, theirs.length - 1)).shape;
    // One joint inside the other has no wall between them.
    const within = opposite.signedDistance(shape.middle) < 0 || shape.signedDistance(opposite.middle) < 0;
    return within ? -1 : wallToPath(opposite.outline, shape).width;
  });
  return Math.min(...walls);
}
