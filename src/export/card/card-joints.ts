import type { Part } from '../../part/part.ts';
import { jointRows } from '../cover/cover-joinery.ts';
import { jointMeasures, jointName } from '../cover/joint-words.ts';
import { paragraph } from '../cover/text-columns.ts';
import { bare, type SettingOut } from '../drawing/dimensions.ts';
import type { Filling, Section } from './fit-sections.ts';

/** So many joints at most are ever tried for; more have their place on the cover. */
const MOST_JOINTS = 14;

/** The joints by the numbers they have in the drawing and on the sheets; undefined where there are none. */
export function jointsSection(part: Part, setting: SettingOut, width: number): Section | undefined {
  const { joints } = setting;
  if (joints.length === 0) return undefined;
  const told = joints.map(
    (joint, i) => `${i + 1} ${jointName(joint)}, ${jointMeasures(joint, (mm) => bare(mm, part.rule))}`,
  );
  const short = (count: number): Filling => {
    const left = joints.length - count;
    const more = left > 0 ? [`and ${left} more: see the cover of the pattern.`] : [];
    const list = [...told.slice(0, count), ...more];
    return { rows: list.flatMap((words) => paragraph(words, width)), list };
  };
  const most = Math.min(MOST_JOINTS, joints.length);
  const full: readonly Filling[] =
    joints.length <= MOST_JOINTS ? [{ rows: jointRows(part, setting, width), list: told }] : [];
  const [first, ...more] = [...full, ...Array.from({ length: most }, (_, i) => short(most - i))];
  return { name: 'joints', title: 'Joints', rank: 5, fillings: [first!, ...more], enough: full.length };
}
