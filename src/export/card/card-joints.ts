import type { Part } from '../../part/part.ts';
import { jointRows } from '../cover/cover-joinery.ts';
import { jointMeasures, jointName, PAPER_WORDS } from '../cover/joinery-words.ts';
import { paragraphs } from '../cover/text-columns.ts';
import { type Dimensions, lengthWithoutUnit } from '../drawing/dimensions.ts';
import { type CardSection, shrinkingVariants } from './fit-sections.ts';

const MAX_JOINTS = 14;

/** By the numbers they have in the drawing and on the sheets; undefined without joints. Width in mm. */
export function jointsSection(part: Part, setting: Dimensions, width: number): CardSection | undefined {
  const { joints } = setting;
  if (joints.length === 0) return undefined;
  const show = (mm: number): string => lengthWithoutUnit(mm, part.rule);
  const sentences = joints.map(
    (joint, i) => `${i + 1} ${jointName(joint)}, ${jointMeasures(joint, show, PAPER_WORDS)}`,
  );
  const full =
    joints.length <= MAX_JOINTS ? [{ rows: jointRows(part, setting, width), list: sentences }] : [];
  const shortened = shrinkingVariants(Math.min(MAX_JOINTS, joints.length), 1, (count) => {
    const left = joints.length - count;
    const more = left > 0 ? [`For ${left} more, see the cover of the pattern.`] : [];
    const list = [...sentences.slice(0, count), ...more];
    return { rows: paragraphs(list, width), list };
  });
  const variants = [...full, ...shortened];
  return { name: 'joints', title: 'Joints', priority: 5, variants, sufficientVariant: full.length };
}
