import type { Part } from '../../part/part.ts';
import { jointRows } from '../cover/cover-joinery.ts';
import { jointMeasures, jointName } from '../cover/joint-words.ts';
import { paragraph } from '../cover/text-columns.ts';
import { type Dimensions, lengthWithoutUnit } from '../drawing/dimensions.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';

/** So many joints at most are ever tried for; more have their place on the cover. */
const MAX_JOINTS = 14;

/** The joints by the numbers they have in the drawing and on the sheets; undefined where there are none. */
export function jointsSection(part: Part, setting: Dimensions, width: number): CardSection | undefined {
  const { joints } = setting;
  if (joints.length === 0) return undefined;
  const sentences = joints.map(
    (joint, i) =>
      `${i + 1} ${jointName(joint)}, ${jointMeasures(joint, (mm) => lengthWithoutUnit(mm, part.rule))}`,
  );
  const shortened = (count: number): SectionVariant => {
    const left = joints.length - count;
    const more = left > 0 ? [`and ${left} more: see the cover of the pattern.`] : [];
    const list = [...sentences.slice(0, count), ...more];
    return { rows: list.flatMap((words) => paragraph(words, width)), list };
  };
  const most = Math.min(MAX_JOINTS, joints.length);
  const full: readonly SectionVariant[] =
    joints.length <= MAX_JOINTS ? [{ rows: jointRows(part, setting, width), list: sentences }] : [];
  const [first, ...more] = [...full, ...Array.from({ length: most }, (_, i) => shortened(most - i))];
  return {
    name: 'joints',
    title: 'Joints',
    priority: 5,
    variants: [first!, ...more],
    sufficientVariant: full.length,
  };
}
