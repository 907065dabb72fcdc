import { isShoulder } from '../../curves/geometry/pieces/piece.ts';
import { type CuttingJoint, isCuttingJoint, jointLean } from '../../job/joints/joint-kinds.ts';
import { OTHER_FACE } from '../../job/joints/joint-side.ts';
import { towardWords } from '../../job/joints/lean.ts';
import { isSquare } from '../../part/ends/end-planes.ts';
import { isHanded } from '../../part/handedness.ts';
import type { Part } from '../../part/part.ts';
import type { LengthFormat } from '../../units/graduation.ts';
import { joinList, present } from '../../units/lists.ts';
import { showAngle } from '../../units/number-format.ts';
import { quoted } from '../../units/quoted.ts';
import type { Sawing } from '../saw/advise-sawing.ts';
import { isStraight, type SawnEdge, tightestBends } from '../saw/bends-and-corners.ts';
import type { BladeAdvice } from '../saw/blade-advice.ts';
import type { BoardSupport } from '../saw/board-support.ts';
import { shouldersIn, shoulderWords } from './describe-blade.ts';
import { cutAngleWords, isByCurve } from './describe-ends.ts';

export type CutStep = readonly [kind: string, words: string];

export const cutOrder = (part: Part, sawing: Sawing, words: LengthFormat): string[] =>
  cutSteps(part, sawing, words).map(([, step]) => step);

/** What needs a square board comes first. */
export function cutSteps(part: Part, { edges, blade, support }: Sawing, words: LengthFormat): CutStep[] {
  const curved = edges.filter((edge) => !isStraight(edge));
  const straight = edges.filter(isStraight);
  const ends = endSteps(part, straight[0], { tips: support.tips, isCurved: curved.length > 0 });
  const joints = jointSteps(part, curved, words);
  const relief = reliefStep(blade, words);
  const layers = part.stock?.layers ?? 1;
  return present<CutStep>(
    layers > 1 && [
      'glue',
      `Glue up the ${layers} layers and let the glue cure. Lay the pattern on the full thickness.`,
    ],
    ...straight.map(({ name }, i): CutStep => ['plane', i === 0 ? planeFirst(name) : planeNext(name)]),
    joints.before,
    ...ends.before,
    shoulderStep(blade, words),
    relief,
    ...tooTightSteps(blade, words),
    ...curveSteps(part, curved, blade, relief !== undefined),
    joints.after,
    ...ends.after,
    mirroredPartStep(part),
  );
}

const planeFirst = (name: string): string =>
  `Plane ${quoted(name)} straight and square to the face. It is the reference for all later cuts.`;
const planeNext = (name: string): string =>
  `Saw ${quoted(name)} outside the finished line. Plane it straight and square to the face, down to the line.`;

/** On a curved edge a joint waits for the edge. */
function jointSteps(part: Part, curved: readonly SawnEdge[], words: LengthFormat) {
  const cutting = part.joints.filter(isCuttingJoint);
  const waits = ({ face }: CuttingJoint): boolean => curved.some(({ name }) => name === face);
  const list = (joints: readonly CuttingJoint[]): string =>
    joints.map((joint) => jointWords(joint, words)).join(', ');
  const [first, last] = [cutting.filter((joint) => !waits(joint)), cutting.filter(waits)];
  return {
    before:
      first.length > 0 &&
      step(
        'joints',
        `Cut the joints before any curve, while the board is flat and square to clamp: ${list(first)}.`,
      ),
    after:
      last.length > 0 &&
      step('edge joints', `Lay out and cut the joints on the finished curve last: ${list(last)}.`),
  };
}

const step = (kind: string, words: string): CutStep => [kind, words];

function jointWords(joint: CuttingJoint, { rounded }: LengthFormat): string {
  const lean = jointLean(joint);
  const leaning = lean ? `, tilted ${showAngle(lean.by)} ${towardWords(lean, joint)}` : '';
  const { face, label, kind } = joint;
  const side = face === undefined ? '' : ` on ${face === OTHER_FACE ? 'the other face' : quoted(face)}`;
  return `${label ?? kind} at station ${rounded(joint.at.x)}${side}${leaning}`;
}

/** Leaning ends are cut while both edges are straight; square ones wait where a straight edge stays. */
function endSteps(
  { ends }: Part,
  straight: SawnEdge | undefined,
  { tips, isCurved }: Pick<BoardSupport, 'tips'> & { readonly isCurved: boolean },
): { before: CutStep[]; after: CutStep[] } {
  if (!ends) return { before: [], after: [] };
  const byCurve = ends.filter((end) => isByCurve(end) && !isSquare(end));
  const leaning = ends.filter((end) => !isSquare(end) && !byCurve.includes(end));
  const square = ends.filter(isSquare);
  const edge = straight ? quoted(straight.name) : 'the board’s straight edge';
  const before = leaning.map((end): CutStep => {
    const cut = `Cut the ${end.side} end (${cutAngleWords(end, showAngle)})${isCurved ? ' before the curve' : ''}.`;
    const hold = `Keep the reference face up and ${edge} against the miter gauge.`;
    return ['leaning end', `${cut} ${hold} Cut where the pattern shows the long point.`];
  });
  const after = byCurve.map((end): CutStep => {
    const how = cutAngleWords(end, showAngle);
    return ['end by hand', `After the curves, saw the ${end.side} end to the pattern by hand (${how}).`];
  });
  if (square.length === 0) return { before, after };
  const which = `${square.map(({ side }) => side).join(' and ')} ${square.length > 1 ? 'ends' : 'end'}`;
  if (!straight) {
    const first =
      'Plane one edge of the board straight and square to the face. Place the reference line of the pattern parallel to it.';
    const now = `Square the ${which} now, with the planed edge against the miter gauge. After the curves are cut, no straight edge is left.`;
    return { before: [['plane', first], ...before, ['square ends', now]], after };
  }
  const last = `Square the ${which}${isCurved ? ' last' : ''}, with ${quoted(straight.name)} against the miter gauge.`;
  if (!isCurved) return { before: [...before, ['square ends', last]], after };
  const why = tips.length > 0 ? 'The waste gives the board more to rest on, and' : 'The waste';
  const waste = `Leave the waste on the ${which}. ${why} keeps your hands off the blade as the cut starts and ends.`;
  return { before: [...before, ['leave waste', waste]], after: [...after, ['square ends', last]] };
}

/** Crosscuts come first: the cuts along the grain then end in them, and the waste falls free. */
function shoulderStep({ corners }: BladeAdvice, words: LengthFormat): CutStep | undefined {
  const shoulders = shouldersIn(corners);
  if (shoulders.length === 0) return undefined;
  return [
    'shoulders',
    `Crosscut the ${shoulderWords(shoulders, words)} from the waste, square to the reference line. ` +
      'Stop at the inside corner, where the cut along the edge will end.',
  ];
}

const tooTightSteps = ({ tooTightForAny }: BladeAdvice, { rounded }: LengthFormat): CutStep[] =>
  tooTightForAny.map(({ kind, at, edge }) => {
    const where = `the ${kind} at station ${rounded(at.x)} (${edge})`;
    const cure =
      kind === 'hollow'
        ? `Bore ${where} before you saw up to it, or cut it with a coping saw.`
        : `Leave ${where} for a coping saw or a rasp.`;
    return [
      'too tight',
      `${cure} No band saw blade can follow it. Do the same at any bend that is nearly as tight.`,
    ];
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
    `Saw relief cuts through the waste, just short of the curve, at ${joinList(places, ' and ')}.`,
  ];
}

/** The hollow edge comes first, while all of the board's width is behind it. */
function curveSteps(
  { sawAllowance }: Part,
  curved: readonly SawnEdge[],
  { corners }: BladeAdvice,
  hasReliefs: boolean,
): CutStep[] {
  const hollow = (edge: SawnEdge): number =>
    tightestBends([edge], 'hollow', 0)[0]?.radius ?? Number.MAX_VALUE;
  const [first, second] = [...curved].sort((a, b) => hollow(a) - hollow(b));
  if (!first) return [];
  const line = sawAllowance > 0 ? 'along the saw line' : 'just outside the finished line';
  const isHollow = hollow(first) < Number.MAX_VALUE;
  const runsOut = corners.some(
    ({ kind, edge, ofShoulder }) => kind === 'outside' && !ofShoulder && edge === first.name,
  );
  const whole = runsOut
    ? '. Run out through the waste past every outside corner.'
    : hasReliefs
      ? '. The waste comes off in pieces.'
      : '. Keep the waste in one piece.';
  const waste = first.pieces.some(isShoulder) ? ', from shoulder to shoulder.' : whole;
  const why = isHollow ? ' The hollow is easier to saw while the board has its full width.' : '';
  return present<CutStep>(
    ['saw edge', `Saw ${quoted(first.name)}${second ? ` first, ${line}.${why}` : ` ${line}${waste}`}`],
    second && [
      'saw edge',
      `Tape the offcut back on, so that the board keeps its weight and its straight edge. Then saw ${quoted(second.name)}.`,
    ],
    sawAllowance > 0 && ['smooth', 'Plane or sand the saw marks off, down to the finished line.'],
  );
}

/** Half a turn about the vertical puts the other edge against the miter gauge; a tilted cut would turn with it. */
function mirroredPartStep(part: Part): CutStep | undefined {
  if (part.pair !== 'mirrored' || !isHanded(part)) return undefined;
  const isTilted = part.ends?.some(({ angles }) => angles.bevel !== 0) ?? false;
  const ends = isTilted
    ? ' Cut its ends with the other edge of the board against the miter gauge. Rotate the miter gauge by the same angle the other way, and keep the blade tilt.'
    : '';
  return ['mirrored part', `Use the mirrored pattern for the mirrored part.${ends}`];
}
