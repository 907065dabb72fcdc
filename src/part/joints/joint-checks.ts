import { along } from '../../curves/geometry/evaluate.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { isInside } from '../../curves/geometry/point-in-path.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { leastOnUnit } from '../../curves/numeric/roots-and-minima.ts';
import type { Joint } from '../../job/job.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { type Rule, showLength } from '../../units/rule.ts';
import { type Cutting, isCutting, type JointShape, jointShape } from './joint-shape.ts';

/** A wall thinner than this splits when the joint is cut or driven home: common practice, no published source. */
const THIN_WALL_MM = 6;

/** Steps in the search for the place of one segment nearest to a joint. */
const STEPS = 48;

/** The lines of a part that its joints are held against. */
export interface JointGround {
  readonly closed: boolean;
  readonly finished: readonly Segment[];
  readonly saw: readonly Segment[];
  /** The stations of a line pattern's ends. */
  readonly from: number;
  readonly to: number;
  /** Absent: unknown, and a leaning hole is judged on the face alone. */
  readonly thickness?: number | undefined;
}

/** Where a joint comes out: on the face, and on the back where it leans and goes right through. */
const facesOf = (joint: Cutting, thickness: number | undefined): JointShape[] => [
  jointShape(joint),
  ...(joint.kind === 'hole' && joint.lean && thickness !== undefined
    ? [jointShape(joint, joint.depth ?? thickness)]
    : []),
];

/** Joints that stand outside the part, across an edge, in the wood that is sawn away, or in each other. */
export function jointFaults(joints: readonly Joint[], ground: JointGround): Fault[] {
  const cutting = joints.filter(isCutting);
  return [
    ...joints.flatMap((joint) => misplaced(joint, ground) ?? []),
    ...pairsOf(cutting).flatMap(([one, other]) =>
      wallBetween(one, other, ground).width < 0 ? [overlap(one, other)] : [],
    ),
  ];
}

const pairsOf = <T>(all: readonly T[]): [T, T][] =>
  all.flatMap((one, i) => all.slice(i + 1).map((other): [T, T] => [one, other]));

function misplaced(joint: Joint, ground: JointGround): Fault | undefined {
  if (!isCutting(joint)) return lineMisplaced(joint, ground);
  const { x } = joint.at;
  if (!ground.closed) return x < ground.from || x > ground.to ? outside(joint, x, ground) : undefined;
  for (const shape of facesOf(joint, ground.thickness)) {
    if (toPath(ground.finished, shape).width < 0) return acrossEdge(joint);
    if (isInside(ground.finished, shape.middle)) continue;
    return ground.saw.length > 0 && isInside(ground.saw, shape.middle)
      ? inSawLine(joint)
      : outside(joint, x, ground);
  }
  return undefined;
}

function lineMisplaced(joint: Joint, ground: JointGround): Fault | undefined {
  const x =
    joint.kind === 'mark'
      ? joint.at
      : joint.kind === 'centre-line' && 'at' in joint.line
        ? joint.line.at
        : ground.from;
  return x < ground.from - JOIN_MM || x > ground.to + JOIN_MM ? outside(joint, x, ground) : undefined;
}

const nameOf = ({ kind }: Joint): string => kind.replace('-', ' ');

const outside = (joint: Joint, station: number, { from, to }: JointGround): Fault =>
  new Fault(
    'joint.outside',
    (mm) =>
      `the ${nameOf(joint)} at station ${mm(station)} lies outside the part. ` +
      `Measure from the reference end and line; the part runs from station ${mm(from)} to ${mm(to)}.`,
    joint.key,
  );

const acrossEdge = (joint: Cutting): Fault =>
  new Fault(
    'joint.across-edge',
    (mm) =>
      `the ${nameOf(joint)} at station ${mm(joint.at.x)}, offset ${mm(joint.at.y)} runs across the finished edge. ` +
      'Move it into the part or make it smaller.',
    joint.key,
  );

const inSawLine = (joint: Cutting): Fault =>
  new Fault(
    'joint.in-saw-line',
    (mm) =>
      `the ${nameOf(joint)} at station ${mm(joint.at.x)}, offset ${mm(joint.at.y)} stands between the finished line ` +
      'and the saw line, in wood that is planed away. Move it into the part.',
    joint.key,
  );

const overlap = (one: Cutting, other: Cutting): Fault =>
  new Fault(
    'joint.overlap',
    (mm) =>
      `the ${nameOf(other)} at station ${mm(other.at.x)} runs into the ${nameOf(one)} at station ${mm(one.at.x)}. ` +
      'Move one of them.',
    other.key,
  );

/** Walls too thin to stand the work, each with its figure. */
export function jointWarnings(joints: readonly Joint[], ground: JointGround, rule: Rule): Warning[] {
  const cutting = joints.filter(isCutting);
  const toEdge = ground.closed ? cutting.flatMap((joint) => edgeWarning(joint, ground, rule) ?? []) : [];
  const apart = pairsOf(cutting).flatMap(([one, other]) => {
    const { width } = wallBetween(one, other, ground);
    const between = `between the ${nameOf(one)} at station ${showLength(one.at.x, rule)} and the ${nameOf(other)} at ${showLength(other.at.x, rule)}`;
    return width < THIN_WALL_MM ? [thin(width, between, rule)] : [];
  });
  return [...toEdge, ...apart];
}

function edgeWarning(joint: Cutting, ground: JointGround, rule: Rule): Warning | undefined {
  const walls = facesOf(joint, ground.thickness).map((shape) => toPath(ground.finished, shape));
  const { width, at } = walls.reduce((a, b) => (b.width < a.width ? b : a));
  if (width >= THIN_WALL_MM) return undefined;
  return thin(width, `between the ${nameOf(joint)} and the edge at station ${showLength(at.x, rule)}`, rule);
}

const thin = (width: number, where: string, rule: Rule): Warning => ({
  code: 'joint.thin-wall',
  message:
    `a wall of only ${showLength(width, rule)} is left ${where}; under ${showLength(THIN_WALL_MM, rule)} wood splits easily. ` +
    'Move the joint, or make it smaller.',
});

interface Wall {
  readonly width: number;
  readonly at: Point;
}

/** What is left between a joint and the nearest place of a path; below 0 where the path runs through it. */
function toPath(path: readonly Segment[], { away }: JointShape): Wall {
  return path
    .map((segment): Wall => {
      const at = along(segment);
      const { at: u, value } = leastOnUnit((v) => away(at(v)), STEPS);
      return { width: value, at: at(u) };
    })
    .reduce((a, b) => (b.width < a.width ? b : a));
}

function wallBetween(one: Cutting, other: Cutting, { thickness }: JointGround): Wall {
  const [mine, theirs] = [facesOf(one, thickness), facesOf(other, thickness)];
  const walls = mine.flatMap((shape, i) => {
    const opposite = theirs[Math.min(i, theirs.length - 1)]!;
    // One inside the other is no wall but a joint twice over.
    const within = opposite.away(shape.middle) < 0 || shape.away(opposite.middle) < 0;
    return within ? { width: -1, at: shape.middle } : toPath(opposite.outline, shape);
  });
  return walls.reduce((a, b) => (b.width < a.width ? b : a));
}
