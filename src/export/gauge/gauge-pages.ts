import { paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { showCount } from '../../units/number-format.ts';
import { coverSection } from '../cover/cover-joinery.ts';
import { composeCover } from '../cover/cover-page.ts';
import {
  checkDistanceRows,
  longMeasureAdvice,
  printSteps,
  REMEDIES,
  tapeSteps,
  toleranceSentence,
} from '../cover/cover-words.ts';
import { blankRow, numberedSteps, paragraph, type TextRow } from '../cover/text-columns.ts';
import { graduationText, toleranceText } from '../drawing/dimensions.ts';
import type { Page } from '../drawing/drawing.ts';
import { wordTable } from '../tables/paper-table.ts';
import { type LaidGauge, stripOutline } from './gauge-layout.ts';
import { gaugePage } from './gauge-page.ts';

/** The pages of a gauge: how it is used where wanted, then its sheets in the order of taping. */
export function* composeGauge(gauge: LaidGauge, cover: boolean): Generator<Page> {
  if (cover) yield* gaugeCover(gauge);
  for (const sheet of gauge.layout.sheets) yield gaugePage(gauge, sheet);
}

export const gaugePageNames = (gauge: LaidGauge, cover: boolean): string[] => [
  ...(cover ? gaugeCover(gauge).map(({ name }) => name) : []),
  ...gauge.layout.sheets.map(({ name }) => name),
];

const gaugeCover = (gauge: LaidGauge): Page[] =>
  composeCover(gauge.part, gauge.layout, {
    subtitle: gaugeSubtitle(gauge),
    lines: gauge.placed.map((placed) => ({ path: stripOutline(placed), closed: true })),
    rows: (width) => gaugeCoverRows(gauge, width),
  });

function gaugeSubtitle({ part, layout: { paper, orientation, sheets, code } }: LaidGauge): string {
  const count = showCount(sheets.length, 'sheet');
  return `Full-size gauge for a story stick · ${count} of ${paperTitle(paper)}, ${orientation} · code ${code} · lengths to ${graduationText(part.rule)}`;
}

function gaugeCoverRows(gauge: LaidGauge, width: number): TextRow[] {
  const { layout, part } = gauge;
  return [
    ...coverSection('Print', numberedSteps(printSteps(layout, 'across'), width)),
    ...coverSection('Tape', numberedSteps(tapeSteps(layout), width)),
    ...coverSection('Put it on the stick', numberedSteps(stickSteps(gauge), width)),
    ...coverSection('Read the part', numberedSteps(readSteps(gauge), width)),
    ...coverSection('Measure before you use it', [
      ...wordTable(checkDistanceRows(layout, part.rule), width),
      blankRow(1),
      ...[toleranceSentence(layout), ...longMeasureAdvice(layout, part.rule), ...REMEDIES].flatMap((text) =>
        paragraph(text, width),
      ),
    ]),
  ];
}

const stickSteps = ({ placed, from }: LaidGauge): string[] => [
  `Cut ${placed.length === 1 ? 'the strip' : 'the strips'} out along the outline, ${placed.length === 1 ? '' : 'each for its own stick or its own edge of one stick, '}the long solid edge last and closest: it is the working edge.`,
  `Fix it on a straight stick with its working edge flush with the stick’s edge and station 0 flush with the stick’s end. Use spray glue or double-sided tape; wet glue stretches paper.`,
  `Station 0 is ${from === 'chord' ? 'the start of the edge' : 'the reference end'}; the arrow points to it.`,
];

function readSteps({ part, placed, from, tolerance, style }: LaidGauge): string[] {
  const { strip } = placed[0]!;
  const along =
    from === 'chord' ? 'the straight line between the two ends of the edge' : 'the reference line';
  const option = `${part.edges.length > 1 ? ` --edge "${strip.edge}"` : ''}${from === 'chord' ? ' --from chord' : ''}`;
  return [
    `Lay the stick along ${along}, working edge towards the part, station 0 at its end.`,
    'At each tick set a rule square off the working edge and read the offset of the sawn edge. Under the station stands what it reads when the part is right; “full” is a hair more, “shy” a hair less, “below” lies on the stick’s side of the line. Write what you read into the box.',
    ...(style.every > 1
      ? [
          `Ticks stand too close here for every one to have a label: ${Number.isFinite(style.every) ? `each ${style.every}th station has one` : 'only landmarks have one'}. “fairlath offsets” lists them all.`,
        ]
      : []),
    `Good is what reads within ${toleranceText(tolerance, part.rule)}. For the verdict type the boxes in: fairlath check JOB${option} --reading STATION=MEASURED, once for each; it tells a part laid crooked from one sawn wrong.`,
  ];
}
