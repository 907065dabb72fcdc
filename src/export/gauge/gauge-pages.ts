import { paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { sectionOf } from '../cover/cover-joinery.ts';
import { pagesOf } from '../cover/cover-page.ts';
import {
  checkRows,
  longMeasures,
  printSteps,
  REMEDIES,
  tapeSteps,
  toleranceSentence,
} from '../cover/cover-words.ts';
import { gap, paragraph, type Row, steps, table } from '../cover/text-columns.ts';
import { graduationWords, plusMinus } from '../drawing/dimensions.ts';
import type { Page } from '../drawing/drawing.ts';
import { type LaidGauge, outlineOf } from './gauge-layout.ts';
import { gaugePage } from './gauge-page.ts';

/** The pages of a gauge: how it is used where wanted, then its sheets in the order of taping. */
export function* composeGauge(gauge: LaidGauge, cover: boolean): Generator<Page> {
  if (cover) yield* gaugeCover(gauge);
  for (const sheet of gauge.layout.sheets) yield gaugePage(gauge, sheet);
}

/** The pages' names in order. */
export const gaugePageNames = (gauge: LaidGauge, cover: boolean): string[] => [
  ...(cover ? gaugeCover(gauge).map(({ name }) => name) : []),
  ...gauge.layout.sheets.map(({ name }) => name),
];

const gaugeCover = (gauge: LaidGauge): Page[] =>
  pagesOf(gauge.part, gauge.layout, {
    subtitle: subtitle(gauge),
    lines: gauge.placed.map((placed) => ({ path: outlineOf(placed), closed: true })),
    rows: (width) => rows(gauge, width),
  });

function subtitle({ part, layout: { paper, orientation, sheets, code } }: LaidGauge): string {
  const count = sheets.length === 1 ? '1 sheet' : `${sheets.length} sheets`;
  return `Full-size gauge for a story stick · ${count} of ${paperTitle(paper)}, ${orientation} · code ${code} · lengths to ${graduationWords(part.rule)}`;
}

function rows(gauge: LaidGauge, width: number): Row[] {
  const { layout, part } = gauge;
  return [
    ...sectionOf('Print', steps(printSteps(layout, 'across'), width)),
    ...sectionOf('Tape', steps(tapeSteps(layout), width)),
    ...sectionOf('Put it on the stick', steps(stickSteps(gauge), width)),
    ...sectionOf('Read the part', steps(readSteps(gauge), width)),
    ...sectionOf('Measure before you use it', [
      ...table(checkRows(layout, part.rule), width),
      gap(1),
      ...[toleranceSentence(layout), ...longMeasures(layout, part.rule), ...REMEDIES].flatMap((text) =>
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
    `Good is what reads within ${plusMinus(tolerance, part.rule)}. For the verdict type the boxes in: fairlath check JOB${option} --reading STATION=MEASURED, once for each; it tells a part laid crooked from one sawn wrong.`,
  ];
}
