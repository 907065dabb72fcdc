import { angleRow, leaningEnds, reachWords, SIGNS } from '../../export/cover/end-words.ts';
import { jointMeasures, jointName } from '../../export/cover/joint-words.ts';
import type { Joint } from '../../job/job.ts';
import { type CutCorner, longAndShort, type PartEnd, trueShape } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import { type Rule, showOnRule } from '../../units/rule.ts';
import { anglesJson, degrees, pair } from './json-output.ts';

/** Ends and joints of a part, as `show` tells them. */

export function endJson(end: PartEnd, { stock }: Part): object {
  const { side, angles, face, back } = end;
  const { long, short } = longAndShort(end);
  const corner = (at: CutCorner): object => ({ at: pair(at), on: at.on });
  return {
    side,
    ...anglesJson(angles),
    face: face.map(pair),
    back: back.map(pair),
    longPoint: corner(long),
    shortPoint: corner(short),
    ...(stock?.thickness !== undefined && { trueShape: trueShape(end, stock.thickness).map(pair) }),
  };
}

/** As in the job, in millimetres and degrees, numbered as on the sheets. */
export function jointJson(joint: Joint, i: number): object {
  const { key, kind, ...rest } = joint;
  const given: object = {
    ...rest,
    ...('turn' in joint && { turn: undefined, turnDeg: degrees(joint.turn) }),
    ...('at' in joint && typeof joint.at !== 'number' && { at: pair(joint.at) }),
    ...('lean' in joint &&
      joint.lean && { lean: { leanDeg: degrees(joint.lean.by), toward: joint.lean.toward } }),
  };
  return { number: i + 1, kind, ...given };
}

export function endsText(part: Part): string[] {
  if (leaningEnds(part).length === 0) return [];
  const rows = part.ends!.flatMap((end) => {
    const [side, miter, tilt, rake, splay, lean, sight] = angleRow(end);
    const name = `  ${side!.padEnd(8)}`;
    return rake === undefined
      ? [`${name}square`]
      : [
          `${name}miter ${miter}, blade tilt ${tilt}; rake ${rake}, splay ${splay}; lean ${lean} on a sight line of ${sight}`,
          `          ${reachWords(end, onRule(part.rule))}`,
        ];
  });
  return [plain(['ends', ...rows, `  ${SIGNS}`].join('\n'))];
}

export function jointsText({ joints, rule }: Part): string[] {
  if (joints.length === 0) return [];
  const rows = joints.map(
    (joint, i) => `  ${`${i + 1}`.padStart(2)}  ${jointName(joint)}: ${jointMeasures(joint, onRule(rule))}`,
  );
  return [plain([`joints, ${rule.unit}`, ...rows].join('\n'))];
}

const onRule =
  (rule: Rule) =>
  (mm: number): string =>
    showOnRule(mm, rule);

/** A terminal's minus. */
const plain = (text: string): string => text.replaceAll('−', '-');
