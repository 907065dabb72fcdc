import type { CuttingJoint, Joint } from '../../job/joints/joint-kinds.ts';
import { OTHER_FACE } from '../../job/joints/joint-side.ts';
import { Fault, type ShowLength, type Warning } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import { type Rule, showLength } from '../../units/rule.ts';

/** A thinner one splits when the joint is cut or driven home: common practice, no published source. */
export const THIN_WALL_MM = 6;

const jointName = ({ kind }: Joint): string => kind.replace('-', ' ');

/** "mortise at station 5", with its side where that is not the reference face. */
export const jointAt = (joint: Joint, station: number, show: ShowLength): string =>
  `${jointName(joint)} at station ${show(station)}${sideOf(joint)}`;

const sideOf = ({ face }: Joint): string => {
  if (face === undefined) return '';
  return face === OTHER_FACE ? ' of the other face' : ` of ${quoted(face)}`;
};

/** Outside the stations of the part, mm. */
export const outsideFault = (joint: Joint, station: number, [from, to]: readonly [number, number]): Fault =>
  new Fault(
    'joint.outside',
    (mm) =>
      `the ${jointAt(joint, station, mm)} is outside the part, which runs from ${mm(from)} to ${mm(to)}. ` +
      'Measure from the left end and the reference line.',
    joint.key,
  );

export const placeFault = (code: string, joint: CuttingJoint, problem: string): Fault =>
  new Fault(
    code,
    (mm) => `the ${jointName(joint)} at station ${mm(joint.at.x)}, offset ${mm(joint.at.y)} ${problem}`,
    joint.key,
  );

export const ACROSS_EDGE_WORDS = 'runs across the finished edge. Move it into the part, or make it smaller.';
export const IN_SAW_LINE_WORDS =
  'is in wood that you remove after sawing, outside the finished line. Move it into the part.';

/** `what` is the wood under the joint, such as "thick". */
export const tooDeepFault = (joint: CuttingJoint, wood: number, what: 'thick' | 'wide there'): Fault =>
  new Fault(
    'joint.too-deep',
    (mm) =>
      `the ${jointAt(joint, joint.at.x, mm)} is ${mm(joint.depth ?? 0)} deep, but the wood is ${mm(wood)} ${what}. ` +
      'Use a smaller depth. For a joint through the wood, remove "depth".',
    `${joint.key}.depth`,
  );

/** Over a corner of an edge of this thickness, mm. */
export const overEdgeFault = (joint: CuttingJoint, thickness: number): Fault =>
  new Fault(
    'joint.across-edge',
    (mm) =>
      `the ${jointAt(joint, joint.at.x, mm)} runs out of the edge, which is ${mm(thickness)} thick. ` +
      'Measure "out" from the reference face, or make the joint smaller.',
    joint.key,
  );

export const noEdgeFault = (joint: Joint): Fault =>
  new Fault(
    'joint.one-edge',
    'a joint on an edge needs a part with two edges. Describe the other edge, or use face: other-face.',
    `${joint.key}.face`,
  );

export const noThicknessFault = (joint: Joint): Fault =>
  new Fault(
    'joint.no-thickness',
    'a joint on this side needs the thickness of the wood. Write "thickness: 1 3/4" under stock.',
    `${joint.key}.face`,
  );

export const overlapFault = (one: CuttingJoint, other: CuttingJoint): Fault =>
  new Fault(
    'joint.overlap',
    (mm) =>
      `the ${jointAt(other, other.at.x, mm)} runs into the ${jointAt(one, one.at.x, mm)}. ` +
      'Move one of them.',
    other.key,
  );

/** Undefined where there is enough wood; `between` names both its sides. */
export function thinWallWarning(width: number, between: string, rule: Rule): Warning | undefined {
  if (width >= THIN_WALL_MM) return undefined;
  return {
    code: 'joint.thin-wall',
    message:
      `only ${showLength(width, rule)} of wood is left between ${between}. Less than ${showLength(THIN_WALL_MM, rule)} splits easily. ` +
      'Move the joint, or make it smaller.',
  };
}

export const wallBetweenWords = (one: CuttingJoint, other: CuttingJoint, rule: Rule): string => {
  const show = (mm: number): string => showLength(mm, rule);
  const second = `${jointName(other)} at ${show(other.at.x)}${sideOf(other)}`;
  return `the ${jointAt(one, one.at.x, show)} and the ${second}`;
};

/** Both sides of the wall at a station, mm. */
export const wallToEdgeWords = (joint: CuttingJoint, station: number, rule: Rule): string =>
  `the ${jointName(joint)} and the edge at station ${showLength(station, rule)}`;
