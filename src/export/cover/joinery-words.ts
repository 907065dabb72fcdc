import { type Joint, jointOrigin, jointSize } from '../../job/joints/joint-kinds.ts';
import { isOnEdge, OTHER_FACE } from '../../job/joints/joint-side.ts';
import { isSquare, type PartEnd } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import { cutAngleWords, isByCurve } from '../../shop/words/describe-ends.ts';
import type { ShowLength } from '../../units/fault.ts';
import { present } from '../../units/lists.ts';
import { showAngle } from '../../units/number-format.ts';
import { quoted } from '../../units/quoted.ts';

export const jointName = ({ kind, label }: Joint): string => label ?? kind.replace('-', ' ');

/** "on the other face", 'on "inner"'; undefined for the reference face. */
export const jointSideWords = ({ face }: Joint): string | undefined => {
  if (face === undefined) return undefined;
  return `on ${face === OTHER_FACE ? 'the other face' : quoted(face)}`;
};

/** As the job names them, and as paper does. */
const JOB_WORDS = { at: 'at', out: 'out' } as const;
export const PAPER_WORDS = { at: 'station', out: 'offset' } as const;
type PlaceWords = typeof JOB_WORDS | typeof PAPER_WORDS;

export function jointPlace(joint: Joint, show: ShowLength, words: PlaceWords = JOB_WORDS): string {
  const { at, out } = jointOrigin(joint);
  const from = isOnEdge(joint) ? ' from the reference face' : '';
  return present(
    jointSideWords(joint),
    at !== undefined && `${words.at} ${show(at)}`,
    out !== undefined && `${words.out} ${show(out)}${from}`,
  ).join(', ');
}

/** "at 5, out 1: 2 × 3⁄8, 1 deep". */
export const jointMeasures = (joint: Joint, show: ShowLength, words: PlaceWords = JOB_WORDS): string =>
  [jointPlace(joint, show, words), jointSize(joint, show)].filter((part) => part !== '').join(': ');

export const slantedEnds = ({ ends }: Pick<Part, 'ends'>): readonly PartEnd[] =>
  (ends ?? []).filter((end) => !isSquare(end));

const ANGLES = ['miter', 'bevel', 'rake', 'splay', 'lean', 'sight'] as const;

/** Its side with all its angles, or with a word. */
export const angleRow = (end: PartEnd): string[] =>
  isSquare(end) || isByCurve(end)
    ? [end.side, cutAngleWords(end, showAngle)]
    : [end.side, ...ANGLES.map((name) => showAngle(end.angles[name]))];

export const SIGN_CONVENTION =
  'Positive miter or rake: the cut is closer to the left end at larger offsets. Positive bevel or splay: the cut is closer to the left end at the reference face.';
