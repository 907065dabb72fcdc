import type { Toward } from '../../job/joints/joint-kind.ts';
import type { Joint } from '../../job/joints/joint-kinds.ts';
import { jointLean, jointOrigin, jointSize } from '../../job/joints/joint-kinds.ts';
import { TOWARD_WORDS } from '../../job/joints/lean.ts';
import type { PartEnd } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import { typesetAngle } from '../../units/number-format.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { typesetFractions } from '../../units/typeset.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';
import { type Dimensions, lengthWithoutUnit } from '../drawing/dimensions.ts';
import { wordTable } from '../tables/paper-table.ts';
import {
  ANGLE_HEAD,
  angleRow,
  reachWords,
  SIGHT_LINE_WORDS,
  SIGN_CONVENTION,
  slantedEnds,
} from './end-words.ts';
import { blankRow, headingRow, paragraph, type TextRow } from './text-columns.ts';
import { trueEndShapeRow } from './true-end-shape.ts';

/** Nothing for a part whose ends are square. */
export function endRows(part: Part, width: number): TextRow[] {
  const leaning = slantedEnds(part);
  if (leaning.length === 0) return [];
  return [
    ...wordTable((part.ends ?? []).map(angleRow), width, ANGLE_HEAD),
    blankRow(1),
    ...paragraph(SIGN_CONVENTION, width),
    ...paragraph(SIGHT_LINE_WORDS, width),
    ...leaning.flatMap((end) => endParagraph(part, end, width)),
    ...(leaning.some(({ angles }) => angles.splay !== 0) ? paragraph(FOLD_INSTRUCTIONS, width) : []),
    ...paragraph(SAW_CAUTION, width),
  ];
}

function endParagraph({ rule, stock }: Part, end: PartEnd, width: number): TextRow[] {
  const thickness = stock?.thickness;
  const words = `${end.side === 'left' ? 'Left' : 'Right'} end: ${reachWords(end, (mm) => lengthWithoutUnit(mm, rule))}.`;
  if (thickness === undefined) return paragraph(words, width);
  const lines = paragraph(`${words} The sawn end, square on:`, width);
  return [
    ...lines.map((line) => ({ ...line, withNext: true })),
    trueEndShapeRow(end, thickness, rule),
    blankRow(1),
  ];
}

const FOLD_INSTRUCTIONS =
  'Beside a bevel the paper has a strip for each edge. Cut round it, lay the pattern on the finished edge, fold the strip down over the edge and mark on along its line: it ends at the corner of the other face. On a curved edge let it follow the curve from that corner.';

const SAW_CAUTION =
  'Try both angles in scrap of the same section, and see that the offcut cannot bind or fall on to the blade. The manual of the saw comes first.';

/** Numbered as on the sheets; width in mm. */
export const jointRows = ({ rule }: Part, { joints }: Dimensions, width: number): TextRow[] =>
  joints.length === 0
    ? []
    : [
        ...wordTable(
          joints.map((joint, i) => jointRow(joint, i + 1, rule)),
          width,
          ['', `at, ${rule.unit}`, 'out', ''],
        ),
        blankRow(1),
        ...wedgeParagraphs(joints, rule).flatMap((words) => paragraph(words, width)),
      ];

function jointRow(joint: Joint, number: number, rule: Rule): string[] {
  const show = (mm: number | undefined): string => (mm === undefined ? '' : lengthWithoutUnit(mm, rule));
  const { at, out } = jointOrigin(joint);
  const name = [joint.kind.replace('-', ' '), ...(joint.label === undefined ? [] : [joint.label])].join(', ');
  const size = jointSize(joint, show);
  return [`${number}`, show(at), show(out), size === '' ? name : `${name}: ${size}`];
}

/** A wedge is planed to its rise over this run, mm, read on a rule of the finest common marks. */
const WEDGE_RUNS: Readonly<Record<Unit, { readonly run: number; readonly rule: Rule }>> = {
  in: { run: 12 * MM_PER_INCH, rule: { unit: 'in', graduation: { numerator: 1, denominator: 64 } } },
  mm: { run: 300, rule: { unit: 'mm', graduation: { numerator: 1, denominator: 2 } } },
};

/** The work is raised on the side that the hole runs away from. */
const RAISED_SIDE: Readonly<Record<Toward, string>> = {
  right: 'the left end',
  left: 'the right end',
  out: 'the reference edge',
  in: 'the far edge',
};

function wedgeParagraphs(joints: readonly Joint[], { unit }: Rule): string[] {
  const { run, rule } = WEDGE_RUNS[unit];
  const leaning = joints.flatMap((joint, i) => {
    const lean = jointLean(joint);
    return lean ? [{ lean, number: i + 1 }] : [];
  });
  if (leaning.length === 0) return [];
  const told = leaning.map(({ lean, number }) => {
    const rise = readOnRule(run * Math.tan(lean.by), rule).text;
    const over = `${typesetFractions(rise)} in ${readOnRule(run, rule).text}`;
    return `Hole ${number}: ${typesetAngle(lean.by)} is ${over} ${unit}; it runs ${TOWARD_WORDS[lean.toward]}, so raise ${RAISED_SIDE[lean.toward]}.`;
  });
  return [
    `A wedge of that rise over that run, under the work, tilts it for a hole that leans. ${told.join(' ')}`,
    'Clamp wedge and work to the table and start the bit slowly: on a slope it skids. The manual of the drill press comes first.',
  ];
}

export const coverSection = (title: string, rows: readonly TextRow[]): TextRow[] =>
  rows.length === 0 ? [] : [headingRow(title), ...rows, blankRow(3)];
