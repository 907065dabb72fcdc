import type { Curve } from '../../curves/curve.ts';
import { isShoulder } from '../../curves/geometry/pieces/piece.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import type { EndPair, Step, Taper } from '../../job/job.ts';
import type { Part } from '../../part/part.ts';
import { BAR_MM, DAMP, expectedError, READ_MM, SEAM_MM } from '../../tiling/expected-error.ts';
import type { Layout } from '../../tiling/layout.ts';
import { type Paper, paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { NOMINAL_MM, type PrinterScale, scaleWords } from '../../tiling/paper/printer-scale.ts';
import type { Rule } from '../../units/rule.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { bare, graduationWords, plusMinus, printed, type SettingOut } from '../drawing/dimensions.ts';
import { fitted } from '../drawing/text-width.ts';
import { noteOf, printedOffsets } from './offset-rows.ts';
import { quantityWords } from './pair-words.ts';
import { BODY_MM } from './text-columns.ts';

/** The words of the cover, apart from where they stand on it. */

export const subtitle = (
  part: Part,
  { paper, orientation, sheets, code, mirrored }: Layout,
  what = 'pattern',
): string => {
  const count = sheets.length === 1 ? '1 sheet' : `${sheets.length} sheets`;
  const whole = part.shape.type === 'half' ? `half ${what}, to flip on its centre line` : what;
  return `Full-size ${mirrored ? 'mirrored ' : ''}${whole} · ${quantityWords(part)} · ${count} of ${paperTitle(paper)}, ${orientation} · code ${code} · lengths to ${graduationWords(part.rule)}`;
};

/** @param bars which way those on its sheets run: along a gauge only lengths across them count */
export const printSteps = (
  { paper, orientation, printer }: Layout,
  bars: 'across and down' | 'across' = 'across and down',
): string[] => [
  `Print at 100 % (“actual size”), with no scaling and no fitting to the page, on one side of ${paperTitle(paper)} paper. ${coverNote(paper, orientation)}`,
  `On the first sheet measure the 100 mm or the 4 in bar, ${bars}, from end mark to end mark. Where one is off by more than half of 1⁄64 in (0.2 mm), set the printer right and print again: the part would be off as well.`,
  ...(printer
    ? [
        `The sheets are drawn for ${printerWords(printer)}, so that a true rule reads 100 mm on a 100 mm bar on paper. Another printer would make them wrong.`,
      ]
    : []),
];

/** How the cover differs from the sheets, if it does. */
function coverNote(paper: Paper, orientation: Layout['orientation']): string {
  if (paper.roll) return 'This cover is an ordinary page, for any printer.';
  return orientation === 'lying' ? 'This cover stands upright; the sheets lie on their side.' : '';
}

/** "the printer shop-laser, which prints 99.7 % across, 100.3 % down". */
const printerWords = (printer: PrinterScale): string =>
  `${printer.name === undefined ? 'a printer' : `the printer ${printer.name}`} that prints ${scaleWords(printer)}`;

/** How a half pattern is used. */
export const halfSteps = ({ shape, rule }: Part): string[] =>
  shape.type === 'half'
    ? [
        `This is the left half, up to the centre line at ${printed(shape.centre[0].x, rule)}. Square a line across the wood for the middle and lay the centre line on it.`,
        'Mark along the pattern, turn it over like a page on the centre line, lay it on the same line and the same reference edge, and mark the other half.',
      ]
    : [];

/** How to tape, for a row, a column or a field of sheets. */
export function tapeSteps({ sheets, code, rows, columns }: Layout): string[] {
  if (sheets.length === 1) return ['One sheet holds it all: there is nothing to tape.'];
  const sides = [...(columns > 1 ? ['left'] : []), ...(rows > 1 ? ['top'] : [])];
  const under = columns > 1 ? 'at its left' : 'above it';
  return [
    `All sheets carry the code ${code}. A sheet with another code is of another version: leave it out.`,
    `Cut each sheet along the dotted line at its ${sides.join(' and at its ')}, where it says so. Go by the register marks, never by the edge of the paper.`,
    `Lay each sheet on the one ${under}, its cut edge along the dotted line there, so that the halves of the register marks become whole. Tape it.`,
    ...(sides.length > 1 ? ['When the rows are taped, lay each on the row above in the same way.'] : []),
    'Measure as below before you cut any wood.',
  ];
}

/** What to measure on the taped-up pattern, and what it is. */
export const measures = (part: Part, layout: Layout, { landmarks }: SettingOut): string[][] => [
  ...checkRows(layout, part.rule),
  ...landmarks
    .filter(({ what }) => what === 'apex')
    .map(({ at, edge }) => [
      printed(at.y, part.rule),
      plusMinus(expectedError(layout, { x: at.x, y: 0 }, at), part.rule),
      `${edge}, offset of the apex, at ${printed(at.x, part.rule)}`,
    ]),
];

/** The distances to measure, how far each may be off, and what it is. */
export const checkRows = (layout: Layout, rule: Rule): string[][] =>
  layout.checks.map(({ label, length, from, to }) => [
    printed(length, rule),
    plusMinus(expectedError(layout, from, to), rule),
    label,
  ]);

/** How the tolerances come about, in one sentence. */
export const toleranceSentence = ({ printer }: Layout): string =>
  `± is about the most that careful work leaves: what reading ${printer ? 'the printer sheet' : 'the bars'} leaves ` +
  `(${READ_MM} mm in ${printer ? NOMINAL_MM : BAR_MM}) and ${DAMP * 100} % for damp paper in full, and ${SEAM_MM} mm a seam, seams adding as chance adds; rounded up to your rule.`;

/** Off by more than this, parts no longer meet, mm: 1/8 in. Common practice; no published source. */
const FORGIVEN_MM = MM_PER_INCH / 8;

/** What makes long measures right where ± is more than a maker can live with: of the part, not of the paper's diagonals. */
export function longMeasures(layout: Layout, rule: Rule): string[] {
  const ofPart = layout.checks.filter(({ from }) => !layout.crosses.some(({ at }) => at === from));
  const most = Math.max(0, ...ofPart.map(({ from, to }) => expectedError(layout, from, to)));
  if (most <= FORGIVEN_MM) return [];
  const ways = [
    ...(layout.printer ? [] : ['a printer measured once (“fairlath printer sheet”, then --printer)']),
    ...(layout.paper.roll ? [] : ['larger paper or a roll']),
    'long measures checked with a steel rule once all is taped: what measures right is right, whatever ± says',
  ];
  return [`${plusMinus(most, rule)} is more than joints forgive. What helps: ${listed(ways)}.`];
}

const listed = (all: readonly string[]): string =>
  all.length === 1 ? all[0]! : `${all.slice(0, -1).join(', ')}, and ${all.at(-1)}`;

/** What a measure that is off tells. */
export const REMEDIES: readonly string[] = [
  'Off by the same share everywhere: the printer’s scale. Print “fairlath printer sheet”, keep its measures with “printer set”, and print again with --printer.',
  'Off across one seam only: take that seam apart, set its register marks true and tape it again.',
  'One diagonal long and the other short: a seam is out of square; look at the register marks at both its ends.',
];

/** Stations and landmarks in order, with the offset of each edge. */
export const offsetRows = (part: Part, setting: SettingOut): string[][] =>
  printedOffsets(part, setting).map(({ station, side, offsets, marks }) => [
    bare(station, part.rule),
    ...offsets.map((offset) => (offset === undefined ? '' : bare(offset, part.rule))),
    marks.map(noteOf(part, side)).join(', '),
  ]);

/** An edge's name wider than this is cut in the head of the table, mm. */
const HEAD_NAME_MM = 22;

export const offsetHead = ({ edges, rule }: Part): string[] => [
  `at, ${rule.unit}`,
  ...edges.map(({ name }) => fitted(name, BODY_MM, HEAD_NAME_MM)),
  '',
];

/** Which curve each run is, in one plain sentence; runs of one kind share theirs. */
export function curveSentences(part: Part): string[] {
  const runs = new Map<string, string[]>();
  part.edges.forEach(({ name, runs: edgeRuns }, e) => {
    edgeRuns.forEach((run, i) => {
      const isStep = run.exact.some(isShoulder);
      const words = isStep ? SHOULDER_WORDS : curveWords(part.job.edges[e]!.steps[i]!, run, part.rule);
      const [from, to] = [run.from.x, run.to.x].map((station) => printed(station, part.rule));
      const stretch = `${name}, ${isStep ? `at ${from}` : `${from} to ${to}`}`;
      runs.set(words, [...(runs.get(words) ?? []), stretch]);
    });
  });
  return [...runs].map(([words, stretches]) => `${stretches.join('; ')}: ${words}`);
}

const SHOULDER_WORDS = 'a shoulder, square to the reference line.';

function curveWords(step: Step, run: Curve, rule: Rule): string {
  switch (step.kind) {
    case 'line':
      return 'straight.';
    case 'arc': {
      const [first] = run.path;
      return `part of a circle${first?.type === 'arc' ? ` of radius ${printed(first.radius, rule)}` : ''}.`;
    }
    case 'batten':
      return step.strip ? taperedWords(step.strip, rule) : battenWords(step.ends);
    case 'bow':
      return 'the line of a springy strip whose two ends a string draws together.';
    case 'ellipse':
      return 'half an ellipse standing on its chord.';
    case 'spline':
      return 'a smooth drafting curve through the given points; close to a batten’s line while it is shallow, but not one.';
  }
}

function battenWords([start, end]: EndPair): string {
  const held = start === 'held' ? (end === 'held' ? 'both ends' : 'its start') : 'its end';
  const ends = start === 'free' && end === 'free' ? '' : `, ${held} held in line with what it meets`;
  return `the line that an even, springy batten takes when it is bent over nails and may slide along them${ends}.`;
}

const taperedWords = ({ from, to }: Taper, rule: Rule): string =>
  `the line of a springy batten planed from ${printed(from, rule)} thick to ${printed(to, rule)}, bent over one nail; ` +
  'such a strip creeps thick end first, so that friction or a stop must hold that end.';

export const sawSentence = ({ sawAllowance, rule }: Part): string =>
  sawAllowance > 0
    ? `Saw to the dashed line, ${printed(sawAllowance, rule)} outside, then plane, spokeshave or sand to the solid one.`
    : 'There is no saw line: the solid line is the finished edge, so saw just outside it.';

export const accuracySentence = `The printed line lies within ${FIT_MM} mm of the true curve. Drawn by fairlath.`;

export const CAUTIONS: readonly string[] = [
  'Fix the pattern so that it cannot shift, and try the shape in scrap before good stock.',
  'At the band saw the manual of the machine comes first. Wear eye protection, set the guard just above the work, keep hands out of the line of the blade, support long stock at both ends and stop the blade before you back out of a cut.',
  'Where a part carries people or keeps them from falling (seats, stairs, railings), the local codes set its sizes, not this pattern.',
];
