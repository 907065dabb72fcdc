import { present } from '../../units/lists.ts';
import { composeCover, measureSection } from '../cover/cover-page.ts';
import {
  checkDistanceRows,
  measureAdvice,
  printSteps,
  sheetsSummary,
  tapeSteps,
} from '../cover/cover-words.ts';
import { coverSection, numberedSteps, type TextRow } from '../cover/text-columns.ts';
import { toleranceText } from '../drawing/dimensions.ts';
import type { Page } from '../drawing/drawing.ts';
import { coverThenSheets, type PatternPages } from '../sheets/pattern-pages.ts';
import { type LaidStoryStick, rowOutline } from './stick-layout.ts';
import { storyStickPage } from './stick-page.ts';

/** The pages of a story stick: its cover where asked for, then its sheets in the order of taping. */
export const composeStoryStick = (stick: LaidStoryStick, cover: boolean): Generator<Page> =>
  storyStickPages(stick, cover).pages;

export const storyStickPages = (stick: LaidStoryStick, cover: boolean): PatternPages =>
  coverThenSheets(cover ? stickCover(stick) : [], stick.layout, (sheet) => storyStickPage(stick, sheet));

const stickCover = (stick: LaidStoryStick): Page[] =>
  composeCover(stick.part, stick.layout, {
    subtitle: `Full-size story stick · ${sheetsSummary(stick.layout, stick.part.rule)}`,
    lines: stick.placed.map((placed) => ({ path: rowOutline(placed), closed: true })),
    rows: (width) => stickCoverRows(stick, width),
  });

function stickCoverRows(stick: LaidStoryStick, width: number): TextRow[] {
  const { layout, part } = stick;
  const steps = (title: string, texts: readonly string[]): TextRow[] =>
    coverSection(title, numberedSteps(texts, width));
  return [
    ...steps('Print', printSteps(layout, part.rule, 'across')),
    ...steps('Tape', tapeSteps(layout)),
    ...steps('Put it on the stick', stickSteps(stick)),
    ...steps('Read the part', readSteps(stick)),
    ...measureSection(
      'Check distances, before you use it',
      checkDistanceRows(layout, part.rule),
      measureAdvice(layout, part.rule, true),
      width,
    ),
  ];
}

function stickSteps({ placed, from }: LaidStoryStick): string[] {
  const several = placed.length > 1;
  return [
    `Cut out ${several ? 'each row' : 'the row'} along its outline. Cut the long thick edge last: it is the working edge.`,
    `Fix ${several ? 'each row to its own straight stick, or to its own edge of one' : 'the row to a straight stick'}. Use spray glue or double-sided tape, because wet glue stretches paper.`,
    'Put the working edge flush with the edge of the stick. Put station 0 flush with the end of the stick.',
    `The arrow points to station 0, ${from === 'chord' ? 'the start of the edge' : 'the left end of the reference line'}.`,
  ];
}

function readSteps({ part, from, tolerance, style }: LaidStoryStick): string[] {
  const along = from === 'chord' ? 'the straight line between the ends of the edge' : 'the reference line';
  return present(
    `Lay the stick along ${along}. Turn the working edge toward the part.`,
    'At each tick, set a rule square to the working edge. Read the offset of the sawn edge, and write it in the box.',
    'The number below each station is the correct offset. “full” means just over the mark, “scant” just under. “below” means on the side of the stick.',
    style.every > 1 &&
      `The ticks are too close together for a label at each. ${labelledShare(style.every)} The list of offsets has them all.`,
    `The tolerance is ${toleranceText(tolerance, part.rule)}. To check the part, type the readings into fairlath. The check shows whether the part was set crooked or sawn wrong.`,
  );
}

const labelledShare = (every: number): string =>
  Number.isFinite(every) ? `One station in ${every} has a label.` : 'Only the landmarks have labels.';
