import type { Joint, Toward } from '../../job/job.ts';
import { showAngle } from '../../units/number-format.ts';

/** How a length is told: off the rule, without its unit. */
type ShowJointLength = (mm: number) => string;

/** What a joint is called: by its label, or by its kind. */
export const jointName = ({ kind, label }: Joint): string => label ?? kind.replace('-', ' ');

/** "at 5, out 1": from the reference end and the reference line. */
export function jointPlace(joint: Joint, show: ShowJointLength): string {
  if (joint.kind === 'centre-line')
    return 'at' in joint.line ? `at ${show(joint.line.at)}` : `out ${show(joint.line.out)}`;
  if (joint.kind === 'mark')
    return joint.out === undefined ? `at ${show(joint.at)}` : `at ${show(joint.at)}, out ${show(joint.out)}`;
  return `at ${show(joint.at.x)}, out ${show(joint.at.y)}`;
}

/** "2 × 3⁄8, 1 deep": nothing of a line or a mark. */
export function jointSize(joint: Joint, show: ShowJointLength): string {
  switch (joint.kind) {
    case 'mortise':
    case 'slot': {
      const turned = joint.turn === 0 ? [] : [`turned ${angleWords(joint.turn)}`];
      return [`${show(joint.length)} × ${show(joint.width)}`, ...turned, depthWords(joint.depth, show)].join(
        ', ',
      );
    }
    case 'hole': {
      const lean = joint.lean
        ? [`leans ${angleWords(joint.lean.by)} ${TOWARD_WORDS[joint.lean.toward]}`]
        : [];
      return [`${show(joint.diameter)} across`, depthWords(joint.depth, show), ...lean].join(', ');
    }
    default:
      return '';
  }
}

/** "at 5, out 1: 2 × 3⁄8, 1 deep". */
export const jointMeasures = (joint: Joint, show: ShowJointLength): string =>
  [jointPlace(joint, show), jointSize(joint, show)].filter((part) => part !== '').join(': ');

const depthWords = (depth: number | undefined, show: ShowJointLength): string =>
  depth === undefined ? 'right through' : `${show(depth)} deep`;

/** Which way a hole runs as it goes in. */
export const TOWARD_WORDS: Readonly<Record<Toward, string>> = {
  left: 'to the left end',
  right: 'to the right end',
  out: 'away from the reference line',
  in: 'to the reference line',
};

/** "7.5°", "−4°". */
export const angleWords = (radians: number): string => showAngle(radians).replace('-', '−');
