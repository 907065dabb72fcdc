import { isShoulder } from '../../curves/geometry/pieces/piece.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import { stepSentence } from '../../job/steps/step-kinds.ts';
import type { Part } from '../../part/part.ts';
import { weakGrainWords } from '../../shop/words/describe-stock.ts';
import type { SafetyId } from '../../shop/words/safety.ts';
import {
  DAMP_STRAIN,
  expectedError,
  READING_ERROR_MM,
  SCALE_BAR_MM,
  SEAM_ERROR_MM,
} from '../../tiling/expected-error.ts';
import type { CheckDistance, Layout } from '../../tiling/layout.ts';
import { type Paper, paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { NOMINAL_LINE_MM, type PrinterScale, printerScaleText } from '../../tiling/paper/printer-scale.ts';
import { joinList, present } from '../../units/lists.ts';
import { showCount } from '../../units/number-format.ts';
import type { Rule } from '../../units/rule.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import type { Dimensions } from '../drawing/dimensions.ts';
import {
  graduationText,
  lengthWithoutUnit,
  printedLength,
  sentence,
  toleranceText,
} from '../drawing/dimensions.ts';
import { truncateToWidth } from '../drawing/text-width.ts';
import { landmarkNote, offsetRowsOf } from './offset-rows.ts';
import { quantityWords } from './pair-words.ts';
import { BODY_MM } from './text-columns.ts';

export function patternSubtitle(part: Part, layout: Layout, what = 'pattern'): string {
  const whole = part.shape.type === 'half' ? `half ${what}, to flip on its centre line` : what;
  return `Full-size ${layout.mirrored ? 'mirrored ' : ''}${whole} · ${quantityWords(part)} · ${sheetsSummary(layout, part.rule)}`;
}

export const sheetsSummary = ({ paper, orientation, sheets, code }: Layout, rule: Rule): string =>
  `${showCount(sheets.length, 'sheet')} of ${paperTitle(paper)}, ${orientation} · code ${code} · lengths to ${graduationText(rule)}`;

/** Along a gauge only lengths across the sheets count, so only those bars are measured. */
export const printSteps = ({ paper, orientation, printer }: Layout, bars = 'across and down'): string[] =>
  present(
    `Print at 100% (“actual size”), with no scaling and no fitting to the page, on one side of ${paperTitle(paper)} paper. ${coverNote(paper, orientation)}`,
    `On the first sheet measure the 100 mm or the 4″ bar, ${bars}, from end mark to end mark. Where one is off by more than half of 1⁄64″ (0.2 mm), set the printer right and print again: the part would be off as well.`,
    printer &&
      `The sheets are drawn for ${printerWords(printer)}, so that a true rule reads 100 mm on a 100 mm bar on paper. Another printer would make them wrong.`,
  );

function coverNote(paper: Paper, orientation: Layout['orientation']): string {
  if (paper.roll) return 'This cover is an ordinary page, for any printer.';
  return orientation === 'lying' ? 'This cover stands upright; the sheets lie on their side.' : '';
}

const printerWords = (printer: PrinterScale): string =>
  `${printer.name === undefined ? 'a printer' : `the printer ${printer.name}`} that prints ${printerScaleText(printer)}`;

export const flipSteps = ({ shape, rule }: Part): string[] =>
  shape.type === 'half'
    ? [
        `This is the left half, up to the centre line at ${printedLength(shape.centre[0].x, rule)}. Square a line across the wood for the middle and lay the centre line on it.`,
        'Mark along the pattern, turn it over like a page on the centre line, lay it on the same line and the same reference edge, and mark the other half.',
      ]
    : [];

/** For a row, a column or a field of sheets. */
export function tapeSteps({ sheets, code, rows, columns }: Layout): string[] {
  if (sheets.length === 1) return ['One sheet holds it all: there is nothing to tape.'];
  const sides = present(columns > 1 && 'left', rows > 1 && 'top');
  const under = columns > 1 ? 'at its left' : 'above it';
  return present(
    `All sheets carry the code ${code}. A sheet with another code is of another version: leave it out.`,
    `Cut each sheet along the dotted line at its ${sides.join(' and at its ')}, where it says so. Go by the register marks, never by the edge of the paper.`,
    `Lay each sheet on the one ${under}, its cut edge along the dotted line there, so that the halves of the register marks become whole. Tape it.`,
    sides.length > 1 && 'When the rows are taped, lay each on the row above in the same way.',
    'Measure as below before you cut any wood.',
  );
}

export function measureRows(part: Part, layout: Layout, { landmarks }: Dimensions): string[][] {
  const highest = landmarks.filter(({ what }) => what === 'apex' || what === 'most rise');
  const ofHighest = highest.map(({ what, at, edge }): CheckDistance => {
    const label = `${edge}, offset of the ${what}, at ${printedLength(at.x, part.rule)}`;
    return { label, length: at.y, from: { x: at.x, y: 0 }, to: at };
  });
  return checkDistanceRows({ ...layout, checks: [...layout.checks, ...ofHighest] }, part.rule);
}

export const checkDistanceRows = (layout: Layout, rule: Rule): string[][] =>
  layout.checks.map(({ label, length, from, to }) => {
    return [printedLength(length, rule), toleranceText(expectedError(layout, from, to), rule), label];
  });

export const measureAdvice = (layout: Layout, rule: Rule): string[] =>
  longMeasureAdvice(layout, rule).concat(REMEDIES);

export const toleranceSentence = ({ printer }: Layout): string =>
  `± is about the most that careful work leaves: what reading ${printer ? 'the printer sheet' : 'the bars'} leaves ` +
  `(${READING_ERROR_MM} mm in ${printer ? NOMINAL_LINE_MM : SCALE_BAR_MM}) and ${DAMP_STRAIN * 100}% for damp paper in full, and ${SEAM_ERROR_MM} mm a seam, seams adding as chance adds; rounded up to your rule.`;

/** Off by more than this, parts no longer meet, mm: 1/8 in. Common practice; no published source. */
const MAX_JOINT_ERROR_MM = MM_PER_INCH / 8;

/** For the part's own measures where ± is more than a maker can live with, not for the paper's diagonals. */
function longMeasureAdvice(layout: Layout, rule: Rule): string[] {
  const ofPart = layout.checks.filter(({ from }) => !layout.crosses.some(({ at }) => at === from));
  const most = Math.max(0, ...ofPart.map(({ from, to }) => expectedError(layout, from, to)));
  if (most <= MAX_JOINT_ERROR_MM) return [];
  const ways = present(
    !layout.printer && 'a printer measured once (“fairlath printer sheet”, then --printer)',
    !layout.paper.roll && 'larger paper or a roll',
    'long measures checked with a steel rule once all is taped: what measures right is right, whatever ± says',
  );
  return [
    `${toleranceText(most, rule)} is more than joints forgive. What helps: ${joinList(ways, ', and ')}.`,
  ];
}

const REMEDIES: readonly string[] = [
  'Off by the same share everywhere: the printer’s scale. Print “fairlath printer sheet”, keep its measures with “printer set”, and print again with --printer.',
  'Off across one seam only: take that seam apart, set its register marks true and tape it again.',
  'One diagonal long and the other short: a seam is out of square; look at the register marks at both its ends.',
];

export const offsetRows = (part: Part, setting: Dimensions): string[][] =>
  offsetRowsOf(part, setting).map(({ station, side, offsets, marks }) => [
    lengthWithoutUnit(station, part.rule),
    ...offsets.map((offset) => (offset === undefined ? '' : lengthWithoutUnit(offset, part.rule))),
    marks.map(landmarkNote(part, side)).join(', '),
  ]);

/** An edge's name wider than this is cut in the head of the table, mm. */
const HEAD_NAME_MM = 22;

export const offsetHead = ({ edges, rule }: Part): string[] => [
  `at, ${rule.unit}`,
  ...edges.map(({ name }) => truncateToWidth(name, BODY_MM, HEAD_NAME_MM)),
  '',
];

/** Runs of one kind share a sentence. */
export function curveSentences(part: Part): string[] {
  const show = (mm: number): string => printedLength(mm, part.rule);
  const runs = new Map<string, string[]>();
  for (const { name, runs: edgeRuns } of part.edges)
    for (const run of edgeRuns) {
      const isStep = run.exact.some(isShoulder);
      const words = isStep ? SHOULDER_WORDS : run.step && stepSentence(run.step, run, show);
      if (words === undefined) continue;
      const [from, to] = [run.from.x, run.to.x].map((station) => printedLength(station, part.rule));
      const stretch = `${name}, ${isStep ? `at ${from}` : `${from} to ${to}`}`;
      runs.set(words, [...(runs.get(words) ?? []), stretch]);
    }
  return [...runs].map(([words, stretches]) => `${stretches.join('; ')}: ${words}`);
}

const SHOULDER_WORDS = 'a shoulder, square to the reference line.';

export const sawSentence = ({ sawAllowance, rule }: Part): string =>
  sawAllowance > 0
    ? `Saw to the dashed line, ${printedLength(sawAllowance, rule)} outside, then plane, spokeshave or sand to the solid one.`
    : 'There is no saw line: the solid line is the finished edge, so saw just outside it.';

export function grainSentences(part: Part): string[] {
  const weak = weakGrainWords(part);
  return weak === undefined ? [] : [`${sentence(weak)}.`];
}

export const accuracySentence = `The printed line lies within ${FIT_MM} mm of the true curve. Drawn by fairlath.`;

/** What the card and the help say as well, as far as the cover has room. */
export const COVER_SAFETY: readonly SafetyId[] = [
  'saw.manual',
  'saw.guide',
  'saw.fingers',
  'saw-support',
  'saw.wear',
  'general-people',
  'pattern-scrap',
];
