import type { Joint, Toward } from '../../job/job.ts';
import type { PartEnd } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { typesetFractions } from '../../units/typeset.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';
import { bare, type SettingOut } from '../drawing/dimensions.ts';
import { ANGLE_HEAD, angleRow, leaningEnds, reachWords, SIGHT, SIGNS } from './end-words.ts';
import { angleWords, jointSize, TOWARD } from './joint-words.ts';
import { gap, heading, paragraph, type Row, table } from './text-columns.ts';
import { trueShapeRow } from './true-end-shape.ts';

/** How the ends are sawn: angles, points, the true shape of the cut. Nothing of a part whose ends are square. */
export function endRows(part: Part, width: number): Row[] {
  const leaning = leaningEnds(part);
  if (leaning.length === 0) return [];
  return [
    ...table((part.ends ?? []).map(angleRow), width, ANGLE_HEAD),
    gap(1),
    ...paragraph(SIGNS, width),
    ...paragraph(SIGHT, width),
    ...leaning.flatMap((end) => oneEnd(part, end, width)),
    ...(leaning.some(({ angles }) => angles.splay !== 0) ? paragraph(FOLD, width) : []),
    ...paragraph(AT_THE_SAW, width),
  ];
}

function oneEnd({ rule, stock }: Part, end: PartEnd, width: number): Row[] {
  const thickness = stock?.thickness;
  const words = `${end.side === 'left' ? 'Left' : 'Right'} end: ${reachWords(end, (mm) => bare(mm, rule))}.`;
  if (thickness === undefined) return paragraph(words, width);
  const lines = paragraph(`${words} The sawn end, square on:`, width);
  return [...lines.map((line) => ({ ...line, withNext: true })), trueShapeRow(end, thickness, rule), gap(1)];
}

const FOLD =
  'Beside a bevel the paper has a strip for each edge. Cut round it, lay the pattern on the finished edge, fold the strip down over the edge and mark on along its line: it ends at the corner of the other face. On a curved edge let it follow the curve from that corner.';

const AT_THE_SAW =
  'Try both angles in scrap of the same section, and see that the offcut cannot bind or fall on to the blade. The manual of the saw comes first.';

/** The joints from the reference end and the reference line, by the numbers they have on the sheets. */
export const jointRows = ({ rule }: Part, { joints }: SettingOut, width: number): Row[] =>
  joints.length === 0
    ? []
    : [
        ...table(
          joints.map((joint, i) => jointRow(joint, i + 1, rule)),
          width,
          ['', `at, ${rule.unit}`, 'out', ''],
        ),
        gap(1),
        ...wedges(joints, rule).flatMap((words) => paragraph(words, width)),
      ];

function jointRow(joint: Joint, number: number, rule: Rule): string[] {
  const show = (mm: number | undefined): string => (mm === undefined ? '' : bare(mm, rule));
  const [at, out] = placeOf(joint);
  const name = [joint.kind.replace('-', ' '), ...(joint.label === undefined ? [] : [joint.label])].join(', ');
  const size = jointSize(joint, show);
  return [`${number}`, show(at), show(out), size === '' ? name : `${name}: ${size}`];
}

function placeOf(joint: Joint): [at: number | undefined, out: number | undefined] {
  if (joint.kind === 'mark') return [joint.at, joint.out];
  if (joint.kind !== 'centre-line') return [joint.at.x, joint.at.y];
  return 'at' in joint.line ? [joint.line.at, undefined] : [undefined, joint.line.out];
}

/** A wedge is planed to its rise over this run, mm, read on a rule of the finest common marks. */
const RUNS: Readonly<Record<Unit, { readonly run: number; readonly rule: Rule }>> = {
  in: { run: 12 * MM_PER_INCH, rule: { unit: 'in', graduation: { numerator: 1, denominator: 64 } } },
  mm: { run: 300, rule: { unit: 'mm', graduation: { numerator: 1, denominator: 2 } } },
};

/** The work is raised on the side that the hole runs away from. */
const RAISED: Readonly<Record<Toward, string>> = {
  right: 'the left end',
  left: 'the right end',
  out: 'the reference edge',
  in: 'the far edge',
};

/** For holes that lean: the wedge for the table of a drill press. */
function wedges(joints: readonly Joint[], { unit }: Rule): string[] {
  const { run, rule } = RUNS[unit];
  const leaning = joints.flatMap((joint, i) =>
    joint.kind === 'hole' && joint.lean ? [{ lean: joint.lean, number: i + 1 }] : [],
  );
  if (leaning.length === 0) return [];
  const told = leaning.map(({ lean, number }) => {
    const rise = readOnRule(run * Math.tan(lean.by), rule).text;
    const over = `${typesetFractions(rise)} in ${readOnRule(run, rule).text}`;
    return `Hole ${number}: ${angleWords(lean.by)} is ${over} ${unit}; it runs ${TOWARD[lean.toward]}, so raise ${RAISED[lean.toward]}.`;
  });
  return [
    `A wedge of that rise over that run, under the work, tilts it for a hole that leans. ${told.join(' ')}`,
    'Clamp wedge and work to the table and start the bit slowly: on a slope it skids. The manual of the drill press comes first.',
  ];
}

/** A heading and what stands under it; nothing where there is nothing. */
export const sectionOf = (title: string, rows: readonly Row[]): Row[] =>
  rows.length === 0 ? [] : [heading(title), ...rows, gap(3)];
