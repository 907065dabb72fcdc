import {
  angleRow,
  jointMeasures,
  jointName,
  SIGN_CONVENTION,
  slantedEnds,
} from '../../export/cover/joinery-words.ts';
import type { Joint } from '../../job/joints/joint-kinds.ts';
import { endLean } from '../../part/ends/end-lean.ts';
import { type CutCorner, longAndShortPoints, type PartEnd, trueShape } from '../../part/ends/end-planes.ts';
import { footOut } from '../../part/ends/standing.ts';
import type { Part } from '../../part/part.ts';
import { endLeanWords, isByCurve, reachWords } from '../../shop/words/describe-ends.ts';
import { footOutWords } from '../../shop/words/foot-out-words.ts';
import { degrees } from '../../units/number-format.ts';
import { showLength, showOnRule } from '../../units/rule.ts';
import { anglesJson, pointJson, UNIT_WORDS } from './print-answer.ts';

/** An end with its angles, its corners on both faces and, where the thickness is known, the true shape of its cut. */
export function endJson(end: PartEnd, part: Part): object {
  const { stock } = part;
  const { side, angles, face, back } = end;
  const { long, short } = longAndShortPoints(end);
  const corner = (at: CutCorner): object => ({ at: pointJson(at), on: at.on });
  return {
    side,
    ...anglesJson(angles),
    ...endLean(end, part),
    face: face.map(pointJson),
    back: back.map(pointJson),
    longPoint: corner(long),
    shortPoint: corner(short),
    ...(stock?.thickness !== undefined && { trueShape: trueShape(end, stock.thickness).map(pointJson) }),
  };
}

/** Undefined if the job does not say how the part stands. */
export function standsJson(part: Part): object | undefined {
  const { stands } = part;
  if (!stands) return undefined;
  const out = footOut(part).map(({ towards, by, distance }) => ({
    towards,
    angleDeg: degrees(by),
    distance,
  }));
  return { foot: stands.foot, twist: stands.twist, out };
}

/** "stands on its left end, the foot 1 13/16\" outside the top toward “outer” (6°)". */
export function standsText(part: Part): string | undefined {
  const { stands, rule } = part;
  return stands && `stands on its ${stands.foot} end${footOutWords(part, (mm) => showLength(mm, rule))}`;
}

/** A joint with the keys of the job, in millimeters and degrees, numbered as on the sheets. */
export function jointJson(joint: Joint, i: number): object {
  const { key, kind, face = 'reference-face', ...rest } = joint;
  return {
    number: i + 1,
    kind,
    face,
    ...rest,
    ...('turn' in joint && { turn: undefined, turnDeg: degrees(joint.turn) }),
    ...('at' in joint && typeof joint.at !== 'number' && { at: pointJson(joint.at) }),
    ...('lean' in joint &&
      joint.lean && { lean: { leanDeg: degrees(joint.lean.by), toward: joint.lean.toward } }),
  };
}

/** The angles of the ends. Undefined if both are square. */
export function endsText(part: Part): string | undefined {
  const show = (mm: number): string => showOnRule(mm, part.rule);
  if (slantedEnds(part).length === 0) return undefined;
  const rows = (part.ends ?? []).flatMap((end) => {
    const [side = '', miter, bevel, rake, splay, lean, sight] = angleRow(end);
    const name = `  ${side.padEnd(8)}`;
    return rake === undefined
      ? [`${name}${miter}`]
      : [
          `${name}miter ${miter}, bevel ${bevel}; rake ${rake}, splay ${splay}; largest lean ${lean} along a sightline of ${sight}`,
          `          ${endLeanWords(end, part)}`,
          `          ${reachWords(end, show)}`,
        ];
  });
  const hasAngles = slantedEnds(part).some((end) => !isByCurve(end));
  return ['ends', ...rows, ...(hasAngles ? [`  ${SIGN_CONVENTION}`] : [])].join('\n');
}

export function jointsText({ joints, rule }: Part): string | undefined {
  if (joints.length === 0) return undefined;
  const show = (mm: number): string => showOnRule(mm, rule);
  const rows = joints.map(
    (joint, i) => `  ${`${i + 1}`.padStart(2)}  ${jointName(joint)}: ${jointMeasures(joint, show)}`,
  );
  return [`joints, in ${UNIT_WORDS[rule.unit]}`, ...rows].join('\n');
}
