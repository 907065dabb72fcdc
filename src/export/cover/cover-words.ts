import { isShoulder } from '../../curves/geometry/pieces/piece.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import { stepSentence } from '../../job/steps/step-kinds.ts';
import type { Part } from '../../part/part.ts';
import { weakGrainWords } from '../../shop/words/describe-stock.ts';
import type { SafetyId } from '../../shop/words/safety.ts';
import { expectedError, READING_ERROR_MM, SCALE_BAR_MM } from '../../tiling/expected-error.ts';
import type { Layout } from '../../tiling/layout.ts';
import { ORIENTATION_TEXT, type Paper, paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { type PrinterScale, printerScaleText } from '../../tiling/paper/printer-scale.ts';
import { lastOf } from '../../units/checked.ts';
import { present } from '../../units/lists.ts';
import { showCount, showTwoFigures } from '../../units/number-format.ts';
import type { Rule } from '../../units/rule.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';
import {
  graduationText,
  printedLength,
  roundedTolerance,
  sentence,
  toleranceText,
} from '../drawing/dimensions.ts';
import { quantityWords } from './pair-words.ts';

export function patternSubtitle(part: Part, layout: Layout, what = 'pattern', mirrored?: Layout): string {
  const whole = part.shape.type === 'half' ? `half ${what}, to flip at the center line` : what;
  const pair = mirrored ? ` · mirrored pattern: ${sheetNames(mirrored)}, code ${mirrored.code}` : '';
  return `Full-size ${whole} · ${quantityWords(part)} · ${sheetsSummary(layout, part.rule)}${pair}`;
}

function sheetNames({ sheets }: Layout): string {
  const [first] = sheets;
  const last = lastOf(sheets);
  return first === last ? `sheet ${first.name}` : `sheets ${first.name} to ${last.name}`;
}

const sheetsSummary = ({ paper, orientation, sheets, code }: Layout, rule: Rule): string =>
  `${showCount(sheets.length, 'sheet')} of ${paperTitle(paper)}, ${ORIENTATION_TEXT[orientation]} · code ${code} · lengths to ${graduationText(rule)}`;

/** Along a story stick only lengths across the sheets count, so only those bars are measured. */
export const printSteps = (
  { paper, orientation, printer }: Layout,
  { unit }: Rule,
  bars = 'across and down',
): string[] =>
  present(
    `Print at 100% (“actual size”), with no fitting to the page. Use one side of ${paperTitle(paper)} paper.${coverNote(paper, orientation)}`,
    `On every sheet, measure the ${SCALE_BAR_WORDS[unit]} scale bar, ${bars}, from end mark to end mark. If a bar is off by more than ${READING_WORDS[unit].reading}, correct the print settings and print again.`,
    printer && `The sheets are corrected for ${printerWords(printer)}. Print them on that printer only.`,
  );

const SCALE_BAR_WORDS: Readonly<Record<Unit, string>> = { in: '4″', mm: '100 mm' };

function coverNote(paper: Paper, orientation: Layout['orientation']): string {
  if (paper.roll) return ' Print this cover on any printer.';
  return orientation === 'lying' ? ' The cover is portrait, the sheets are landscape.' : '';
}

const printerWords = (printer: PrinterScale): string =>
  `${printer.name === undefined ? 'a printer' : `the printer “${printer.name}”`} that prints ${printerScaleText(printer)}`;

export const flipSteps = ({ shape, rule }: Part): string[] =>
  shape.type === 'half'
    ? [
        `This is the left half, up to the center line at ${printedLength(shape.centre[0].x, rule)}. Square a line across the wood for the middle. Lay the center line on it.`,
        'Trace the half. Flip the pattern over along the center line. Keep it on the same reference edge, and trace the other half.',
      ]
    : [];

/** For a row, a column or a field of sheets. */
export function tapeSteps({ sheets, code, rows, columns }: Layout, mirrored?: Layout): string[] {
  if (sheets.length === 1) return ['The pattern fits on one sheet. Nothing needs taping.'];
  const sides = present(columns > 1 && 'left', rows > 1 && 'top');
  const under = columns > 1 ? 'at its left' : 'above it';
  return present(
    mirrored
      ? `Sort the sheets by their code: ${code}, and ${mirrored.code} for the mirrored pattern. Discard any sheet with a different code.`
      : `Every sheet must show the code ${code}. Discard any sheet with a different code.`,
    `Cut each sheet along the dotted line at its ${sides.join(' and at its ')}, where it says so.`,
    `Place each sheet on the sheet ${under}. Line up the cut edge with the dotted line and complete the register marks. Then tape. Do not use the edges of the paper.`,
    sides.length > 1 && 'When the rows are taped, lay each row on the row above in the same way.',
  );
}

export const measureAdvice = (layout: Layout, rule: Rule, hasStraightEdge: boolean): string[] => [
  ...longMeasureAdvice(layout, rule),
  ...(layout.sheets.length > 1 ? remedies(hasStraightEdge) : [toleranceSentence()]),
  SCALE_REMEDY,
];

/** What the figures of `expected-error.ts` mean. */
const toleranceSentence = (): string => 'The largest error is what 99% of careful work keeps.';

/** READING_ERROR_MM in SCALE_BAR_MM. */
const READING_WORDS = {
  in: { reading: 'half of 1⁄64″', bar: '4″' },
  mm: { reading: `${READING_ERROR_MM} mm`, bar: `${SCALE_BAR_MM} mm` },
} as const;

/** Off by more than this, parts no longer meet, mm: 1/8 in. Common practice; no published source. */
const MAX_JOINT_ERROR_MM = MM_PER_INCH / 8;

/** For the part's own distances where ± is more than a maker can live with, not for the paper's diagonals. */
function longMeasureAdvice(layout: Layout, rule: Rule): string[] {
  const ofPart = layout.checks.filter(({ from }) => !layout.crosses.some(({ at }) => at === from));
  const most = Math.max(0, ...ofPart.map(({ from, to }) => expectedError(layout, from, to)));
  if (roundedTolerance(most, rule) <= MAX_JOINT_ERROR_MM) return [];
  const ways = present(
    !layout.printer && 'Measure the printer once, and print again corrected for it.',
    !layout.paper.roll && 'Use larger paper or a roll.',
    'Check the long distances with a steel rule after taping: if they measure right, the pattern is right.',
  );
  return [`${toleranceText(most, rule)} is too much for a joint. ${ways.join(' ')}`];
}

/** Which seam to open. */
const remedies = (hasStraightEdge: boolean): string[] => [
  `${toleranceSentence()} A distance across a seam is wrong: open that seam.`,
  hasStraightEdge
    ? 'The diagonals differ, or the straightedge shows a gap: look along the straight edge. Open the seam where it steps or bends.'
    : 'The diagonals differ: look along the edges. Open the seam where they step or bend.',
];

const SCALE_REMEDY =
  'All are off by the same percentage: open no seam. Print at 100% again. If the error stays, measure the printer once, and print corrected for it.';

/** Runs of one kind share a sentence. */
export function curveSentences(part: Part): string[] {
  const show = (mm: number): string => printedLength(mm, part.rule);
  const runs = new Map<string, string[]>();
  for (const { name, parallel, runs: edgeRuns } of part.edges) {
    if (parallel)
      runs.set(`parallel to “${parallel.to}”, ${show(Math.abs(parallel.by))} off everywhere.`, [name]);
    for (const run of edgeRuns) {
      const isStep = run.exact.some(isShoulder);
      const words = isStep ? SHOULDER_WORDS : run.step && stepSentence(run.step, run, show);
      if (words === undefined) continue;
      const [from, to] = [run.from.x, run.to.x].map((station) => printedLength(station, part.rule));
      const stretch = `${name}, ${isStep ? `at ${from}` : `${from} to ${to}`}`;
      runs.set(words, [...(runs.get(words) ?? []), stretch]);
    }
  }
  return [...runs].map(([words, stretches]) => `${stretches.join('; ')}: ${words}`);
}

const SHOULDER_WORDS = 'a shoulder, square to the reference line.';

export const sawSentence = ({ sawAllowance, rule, laminate }: Part): string =>
  laminate
    ? 'The part is laminated: bend plies over the form, which has a pattern of its own. Lay the glued part on this pattern to check it and to mark its ends.'
    : sawAllowance > 0
      ? `Saw along the dashed saw line, ${printedLength(sawAllowance, rule)} outside the finished line. Then plane or sand to the finished line.`
      : 'The pattern has no saw line. Saw just outside the finished line.';

export function grainSentences(part: Part): string[] {
  const weak = weakGrainWords(part);
  return weak === undefined ? [] : [`${sentence(weak)}.`];
}

export const accuracySentence = ({ unit }: Rule): string =>
  `The printed line is within ${typesetMeasures(showTwoFigures(FIT_MM, unit))} of the true curve. Drawn by fairlath.`;

/** What the card and the help say as well, as far as the cover has room. */
export const BRIEF_SAFETY: readonly SafetyId[] = [
  'saw.manual',
  'saw.guide',
  'saw.fingers',
  'saw.wear',
  'pattern-scrap',
];
export const COVER_SAFETY: readonly SafetyId[] = [...BRIEF_SAFETY, 'saw-support', 'general-people'];
