import { firstOf } from '../../units/checked.ts';
import { present } from '../../units/lists.ts';
import { composeCover, measureSection } from '../cover/cover-page.ts';
import {
  checkDistanceRows,
  measureAdvice,
  printSteps,
  sheetsSummary,
  tapeSteps,
  toleranceSentence,
} from '../cover/cover-words.ts';
import { coverSection, numberedSteps, type TextRow } from '../cover/text-columns.ts';
import { toleranceText } from '../drawing/dimensions.ts';
import type { Page } from '../drawing/drawing.ts';
import { coverThenSheets, type PatternPages } from '../sheets/pattern-pages.ts';
import { type LaidGauge, stripOutline } from './gauge-layout.ts';
import { gaugePage } from './gauge-page.ts';

/** The pages of a gauge: how it is used where wanted, then its sheets in the order of taping. */
export const composeGauge = (gauge: LaidGauge, cover: boolean): Generator<Page> =>
  gaugePages(gauge, cover).pages;

export const gaugePages = (gauge: LaidGauge, cover: boolean): PatternPages =>
  coverThenSheets(cover ? gaugeCover(gauge) : [], gauge.layout, (sheet) => gaugePage(gauge, sheet));

const gaugeCover = (gauge: LaidGauge): Page[] =>
  composeCover(gauge.part, gauge.layout, {
    subtitle: `Full-size gauge for a story stick · ${sheetsSummary(gauge.layout, gauge.part.rule)}`,
    lines: gauge.placed.map((placed) => ({ path: stripOutline(placed), closed: true })),
    rows: (width) => gaugeCoverRows(gauge, width),
  });

function gaugeCoverRows(gauge: LaidGauge, width: number): TextRow[] {
  const { layout, part } = gauge;
  const steps = (title: string, texts: readonly string[]): TextRow[] =>
    coverSection(title, numberedSteps(texts, width));
  return [
    ...steps('Print', printSteps(layout, 'across')),
    ...steps('Tape', tapeSteps(layout)),
    ...steps('Put it on the stick', stickSteps(gauge)),
    ...steps('Read the part', readSteps(gauge)),
    ...measureSection(
      'Measure before you use it',
      checkDistanceRows(layout, part.rule),
      [toleranceSentence(layout), ...measureAdvice(layout, part.rule)],
      width,
    ),
  ];
}

const stickSteps = ({ placed, from }: LaidGauge): string[] => [
  `Cut ${placed.length === 1 ? 'the strip' : 'the strips'} out along the outline, ${placed.length === 1 ? '' : 'each for its own stick or its own edge of one stick, '}the long solid edge last and closest: it is the working edge.`,
  `Fix it on a straight stick with its working edge flush with the stick’s edge and station 0 flush with the stick’s end. Use spray glue or double-sided tape; wet glue stretches paper.`,
  `Station 0 is ${from === 'chord' ? 'the start of the edge' : 'the reference end'}; the arrow points to it.`,
];

function readSteps({ part, placed, from, tolerance, style }: LaidGauge): string[] {
  const { strip } = firstOf(placed);
  const along =
    from === 'chord' ? 'the straight line between the two ends of the edge' : 'the reference line';
  const option = `${part.edges.length > 1 ? ` --edge "${strip.edge}"` : ''}${from === 'chord' ? ' --from chord' : ''}`;
  return present(
    `Lay the stick along ${along}, working edge towards the part, station 0 at its end.`,
    'At each tick set a rule square off the working edge and read the offset of the sawn edge. Under the station stands what it reads when the part is right; “full” is a hair more, “shy” a hair less, “below” lies on the stick’s side of the line. Write what you read into the box.',
    style.every > 1 &&
      `Ticks stand too close here for every one to have a label: ${Number.isFinite(style.every) ? `each ${style.every}th station has one` : 'only landmarks have one'}. “fairlath offsets” lists them all.`,
    `Good is what reads within ${toleranceText(tolerance, part.rule)}. For the verdict type the boxes in: fairlath check JOB${option} --reading STATION=MEASURED, once for each; it tells a part laid crooked from one sawn wrong.`,
  );
}
