import { isShoulder } from '../../curves/geometry/pieces/piece.ts';
import { isCuttingJoint, jointLean } from '../../job/joints/joint-kinds.ts';
import { isSquare } from '../../part/ends/end-planes.ts';
import { isHanded } from '../../part/handedness.ts';
import type { Part } from '../../part/part.ts';
import type { LengthFormat } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { showAngle } from '../../units/number-format.ts';
import { quoted } from '../../units/quoted.ts';
import type { Sawing } from '../saw/advise-sawing.ts';
import { isStraight, type SawnEdge, tightestBends } from '../saw/bends-and-corners.ts';
import type { BladeAdvice } from '../saw/blade-advice.ts';
import type { BoardSupport } from '../saw/board-support.ts';
import { shouldersIn, shoulderWords } from './describe-blade.ts';
import { cutAngleWords } from './describe-ends.ts';

export type CutStep = readonly [kind: string, words: string];

export const cutOrder = (part: Part, sawing: Sawing, words: LengthFormat): string[] =>
  cutSteps(part, sawing, words).map(([, step]) => step);

/** What needs a square board comes first. */
export function cutSteps(part: Part, { edges, blade, support }: Sawing, words: LengthFormat): CutStep[] {
  const curved = edges.filter((edge) => !isStraight(edge));
  const straight = edges.filter(isStraight);
  const ends = endSteps(part, straight[0], support);
  const layers = part.stock?.layers ?? 1;
  return present<CutStep>(
    layers > 1 && [
      'glue',
      `Glue up the ${layers} layers and let the glue harden; the pattern goes on the whole thickness.`,
    ],
    ...straight.map(
      ({ name }): CutStep => [
        'plane',
        `Plane ${quoted(name)} straight and square to the face: everything registers on it.`,
      ],
    ),
    jointStep(part, words),
    ...ends.before,
    shoulderStep(blade, words),
    reliefStep(blade, words),
    ...tooTightSteps(blade, words),
    ...curveSteps(part, curved, blade),
    ...ends.after,
    mirroredPartStep(part),
  );
}

function jointStep({ joints }: Part, { rounded }: LengthFormat): CutStep | undefined {
  const cutting = joints.filter(isCuttingJoint);
  if (cutting.length === 0) return undefined;
  const which = cutting.map((joint) => {
    const lean = jointLean(joint);
    const leaning = lean ? `, leaning ${showAngle(lean.by)} to the ${lean.toward}` : '';
    return `${joint.label ?? joint.kind} at station ${rounded(joint.at.x)}${leaning}`;
  });
  return [
    'joints',
    `Cut the joints (${which.join(', ')}) before any curve, while the faces are flat and the board clamps square.`,
  ];
}

/** Leaning ends are cut while both edges are straight; square ones wait where a straight edge stays. */
function endSteps(
  { ends }: Part,
  straight: SawnEdge | undefined,
  { tips }: BoardSupport,
): { before: CutStep[]; after: CutStep[] } {
  if (!ends) return { before: [], after: [] };
  const leaning = ends.filter((end) => !isSquare(end));
  const square = ends.filter(isSquare);
  const on = straight ? `${quoted(straight.name)}, which stays straight,` : 'the board’s straight edge';
  const before = leaning.map(({ side, angles }): CutStep => {
    const cut = `Cut the ${side} end (${cutAngleWords(angles, showAngle)}) before the curve, the marked face up and ${on}`;
    return ['leaning end', `${cut} against the gauge: the long point stands where the pattern has it.`];
  });
  if (square.length === 0) return { before, after: [] };
  const which = `${square.map(({ side }) => side).join(' and ')} ${square.length > 1 ? 'ends' : 'end'}`;
  if (!straight) {
    const now = `Square the ${which} now: after the curves the part has no straight edge for the gauge.`;
    return { before: [...before, ['square ends', now]], after: [] };
  }
  const why = tips.length > 0 ? 'it lengthens the board’s bearing and' : 'it';
  const waste = `Leave the waste on the ${which}: ${why} keeps your hands off the blade as the cut runs in or out.`;
  const last = `Square the ${which} last, ${quoted(straight.name)} against the gauge.`;
  return { before: [...before, ['leave waste', waste]], after: [['square ends', last]] };
}

/** Crosscuts come first: the cuts along the grain then end in them, and the waste falls free. */
function shoulderStep({ corners }: BladeAdvice, words: LengthFormat): CutStep | undefined {
  const shoulders = shouldersIn(corners);
  if (shoulders.length === 0) return undefined;
  return [
    'shoulders',
    `Crosscut the ${shoulderWords(shoulders, words)} straight in from the waste, square to the reference line, ` +
      'as deep as the inside corner and no deeper: the cut along the edge ends there.',
  ];
}

const tooTightSteps = ({ tooTightForAny }: BladeAdvice, { rounded }: LengthFormat): CutStep[] =>
  tooTightForAny.map(({ kind, at, edge }) => {
    const where = `the ${kind} at station ${rounded(at.x)} (${edge}), which no blade turns`;
    const cure =
      kind === 'hollow'
        ? `Bore ${where}, before you saw up to it, or leave it to a coping saw`
        : `Leave ${where}, to a coping saw or a rasp`;
    return ['too tight', `${cure}; and what else is nearly as tight.`];
  });

function reliefStep(
  { corners, ownBlade, tooTightForAny }: BladeAdvice,
  { rounded }: LengthFormat,
): CutStep | undefined {
  const places = [
    ...corners
      .filter(({ kind, ofShoulder }) => kind === 'inside' && !ofShoulder)
      .map(({ at }) => `the inside corner at station ${rounded(at.x)}`),
    ...(ownBlade?.tooTight ?? [])
      .filter((bend) => !tooTightForAny.includes(bend))
      .map(({ kind, at, edge }) => `the tight ${kind} at station ${rounded(at.x)} (${edge})`),
  ];
  if (places.length === 0) return undefined;
  return [
    'relief cuts',
    `Saw relief cuts through the waste, just short of the line, at ${places.join(' and ')}.`,
  ];
}

/** The hollow edge comes first, while all of the board's width is behind it. */
function curveSteps(
  { sawAllowance }: Part,
  curved: readonly SawnEdge[],
  { corners }: BladeAdvice,
): CutStep[] {
  const hollow = (edge: SawnEdge): number =>
    tightestBends([edge], 'hollow', 0)[0]?.radius ?? Number.MAX_VALUE;
  const [first, second] = [...curved].sort((a, b) => hollow(a) - hollow(b));
  if (!first) return [];
  const line = sawAllowance > 0 ? 'to the dashed line' : 'just outside the line';
  const isHollow = hollow(first) < Number.MAX_VALUE;
  const runsOut = corners.some(
    ({ kind, edge, ofShoulder }) => kind === 'outside' && !ofShoulder && edge === first.name,
  );
  const whole = runsOut ? 'out through the waste past every outside corner' : 'its waste in one piece';
  const waste = first.pieces.some(isShoulder) ? 'from shoulder to shoulder' : whole;
  const why = isHollow ? ', its hollow while the whole width of the board stands behind it' : '';
  return present<CutStep>(
    ['saw edge', `Saw ${quoted(first.name)} ${line}${second ? ` first${why}` : `, ${waste}`}.`],
    second && [
      'saw edge',
      `Tape its offcut back on: the board keeps its weight and its straight edge for clamp and push block. Then saw ${quoted(second.name)}.`,
    ],
    sawAllowance > 0 && ['smooth', 'Take the saw marks off, down to the solid line.'],
  );
}

/** Half a turn about the vertical lays the other hand's edge against the gauge; a tilted cut would turn with it. */
function mirroredPartStep(part: Part): CutStep | undefined {
  if (part.pair !== 'mirrored' || !isHanded(part)) return undefined;
  const isTilted = part.ends?.some(({ angles }) => angles.bevel !== 0) ?? false;
  const ends = isTilted
    ? ', and cut its ends with the board’s far edge against the gauge, swung as far the other way; the blade’s tilt stays'
    : '';
  return ['mirrored part', `For the other hand of the pair take the mirrored pattern${ends}.`];
}
