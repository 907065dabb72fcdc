import { type Joint, jointOrigin, jointSize } from '../../job/joints/joint-kinds.ts';
import type { ShowLength } from '../../units/fault.ts';

export const jointName = ({ kind, label }: Joint): string => label ?? kind.replace('-', ' ');

/** "at 5, out 1": from the reference end and the reference line. */
export function jointPlace(joint: Joint, show: ShowLength): string {
  const { at, out } = jointOrigin(joint);
  return [
    ...(at === undefined ? [] : [`at ${show(at)}`]),
    ...(out === undefined ? [] : [`out ${show(out)}`]),
  ].join(', ');
}

/** "at 5, out 1: 2 × 3⁄8, 1 deep". */
export const jointMeasures = (joint: Joint, show: ShowLength): string =>
  [jointPlace(joint, show), jointSize(joint, show)].filter((part) => part !== '').join(': ');
