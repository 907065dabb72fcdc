import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import type { Layout } from '../../tiling/layout.ts';
import { marginSides } from '../../tiling/paper/margins.ts';
import { DEFAULT_PAPER, type Paper, parsePaper } from '../../tiling/paper/paper-sizes.ts';
import type { Dimensions } from '../drawing/dimensions.ts';
import { type Item, type Page, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, truncateToWidth, wrapText } from '../drawing/text-width.ts';
import { wordTable } from '../tables/paper-table.ts';
import { assemblyMap, type MapLine } from './assembly-map.ts';
import { coverSection, endRows, jointRows } from './cover-joinery.ts';
import {
  accuracySentence,
  CAUTIONS,
  curveSentences,
  flipSteps,
  longMeasureAdvice,
  measureRows,
  offsetHead,
  offsetRows,
  patternSubtitle,
  printSteps,
  REMEDIES,
  sawSentence,
  tapeSteps,
  toleranceSentence,
} from './cover-words.ts';
import { pairWords, patternTitle } from './pair-words.ts';
import type { PatternNotes } from './pattern-notes.ts';
import { blankRow, fillColumns, numberedSteps, paragraph, type TextRow } from './text-columns.ts';

const TITLES_MM = [10, 8, 6] as const;
const MIN_TITLE_MM = 6;
const SUBTITLE_MM = 3.6;
const GUTTER_MM = 8;

/** A column narrower than this reads badly, mm; a cover twice as wide has two. */
const MIN_COLUMN_MM = 70;

/** Shares of the cover's height that the map may take, to try in turn until all else fits on one page. */
const MAP_SHARES = [0.26, 0.2, 0.15] as const;

/** The cover leaves at least this much white, whatever the margin of the sheets, mm. */
const MIN_COVER_MARGIN_MM = 12.7;

const MAX_COVERS = 12;

export interface CoverContent {
  readonly subtitle: string;
  readonly lines: readonly MapLine[];
  readonly rows: (width: number) => readonly TextRow[];
}

export const patternCover = (part: Part, layout: Layout, setting: Dimensions, notes?: PatternNotes): Page[] =>
  composeCover(part, layout, {
    subtitle: patternSubtitle(part, layout, notes?.what),
    lines: [{ path: finishedLine(part.shape), closed: part.shape.type === 'closed' }],
    rows: (width) => patternCoverRows(part, layout, setting, width, notes),
  });

/** A cover, upright on the same paper; on small paper its words run on to more pages. */
export function composeCover(part: Part, layout: Layout, cover: CoverContent): Page[] {
  let pages: Page[] = [];
  for (const share of MAP_SHARES) {
    pages = coverWithMap(part, layout, cover, share);
    if (pages.length === 1) break;
  }
  return pages;
}

function coverWithMap(part: Part, layout: Layout, cover: CoverContent, mapShare: number): Page[] {
  const { width, height } = coverPaper(part, layout);
  // A roll's margins are not those of the sheet that its cover is printed on, and may leave nothing of it.
  const { top, right, bottom, left } = marginSides(layout.paper.roll ? MIN_COVER_MARGIN_MM : layout.margin);
  const least = (margin: number): number => Math.max(margin, MIN_COVER_MARGIN_MM);
  const page: Box = {
    left: least(left),
    right: width - least(right),
    bottom: least(bottom),
    top: height - least(top),
  };
  const count = page.right - page.left >= 2 * MIN_COLUMN_MM + GUTTER_MM ? 2 : 1;
  const columnWidth = (page.right - page.left - (count - 1) * GUTTER_MM) / count;
  const head = coverHead(part, layout, cover, page, mapShare);
  const first = fillColumns(
    cover.rows(columnWidth),
    columnBoxes({ ...page, top: head.bottom }, count, columnWidth),
  );
  const pages: Page[] = [
    { name: coverName(layout), drawing: { width, height, items: [...head.items, ...first.items] } },
  ];
  for (let rest = first.rest; rest.length > 0 && pages.length < MAX_COVERS; ) {
    const filled = fillColumns(rest, columnBoxes(page, count, columnWidth));
    pages.push({
      name: `${coverName(layout)} ${pages.length + 1}`,
      drawing: { width, height, items: filled.items },
    });
    rest = filled.rest;
  }
  return pages;
}

const coverName = ({ mirrored }: Layout): string => (mirrored ? 'mirrored cover' : 'cover');

/** The sheets' own paper; with a roll, the usual sheet of whoever measures in the part's unit. */
const coverPaper = ({ rule }: Part, { paper }: Layout): Paper =>
  paper.roll ? parsePaper(DEFAULT_PAPER[rule.unit]) : paper;

const columnBoxes = (page: Box, count: number, width: number): Box[] =>
  Array.from({ length: count }, (_, i) => {
    const left = page.left + i * (width + GUTTER_MM);
    return { ...page, left, right: left + width };
  });

function coverHead(
  part: Part,
  layout: Layout,
  cover: CoverContent,
  page: Box,
  mapShare: number,
): { items: Item[]; bottom: number } {
  const width = page.right - page.left;
  const name = patternTitle(part, layout);
  const size = TITLES_MM.find((one) => textWidth(name, one) <= width) ?? MIN_TITLE_MM;
  const title = page.top - size * 0.75;
  const lines = wrapText(cover.subtitle, SUBTITLE_MM, width);
  const below = title - SUBTITLE_MM * LINE_SPACING * (lines.length + 0.6);
  const map = assemblyMap(cover.lines, layout, { width, height: (page.top - page.bottom) * mapShare });
  const mapTop = below - 4;
  return {
    items: [
      words(truncateToWidth(name, size, width), { x: page.left, y: title }, size),
      ...lines.map((line, i) =>
        words(line, { x: page.left, y: title - SUBTITLE_MM * LINE_SPACING * (i + 1.3) }, SUBTITLE_MM),
      ),
      ...map.draw(page.left, mapTop),
    ],
    bottom: mapTop - map.height - 6,
  };
}

/** The cover of a mirrored pattern follows the first's and tells only what is of its own. */
function patternCoverRows(
  part: Part,
  layout: Layout,
  setting: Dimensions,
  width: number,
  notes: PatternNotes | undefined,
): TextRow[] {
  const { mirrored } = layout;
  const paragraphs = (texts: readonly string[]): TextRow[] => texts.flatMap((text) => paragraph(text, width));
  return [
    ...(notes?.sections ?? []).flatMap(({ title, steps: texts }) =>
      coverSection(title, numberedSteps(texts, width)),
    ),
    ...(mirrored ? [] : coverSection('Print', numberedSteps(printSteps(layout), width))),
    ...coverSection('Tape', numberedSteps(tapeSteps(layout), width)),
    ...coverSection('Flip', numberedSteps(flipSteps(part), width)),
    ...coverSection(
      part.pair === 'identical' ? 'All alike' : 'The pair',
      paragraphs(pairWords(part, layout)),
    ),
    ...coverSection('Measure before you cut', [
      ...wordTable(measureRows(part, layout, setting), width),
      blankRow(1),
      ...paragraphs([
        toleranceSentence(layout),
        ...(mirrored ? [] : [...longMeasureAdvice(layout, part.rule), ...REMEDIES]),
      ]),
    ]),
    ...(mirrored
      ? []
      : coverSection(
          'The line',
          paragraphs([
            ...(notes?.sentences ?? [...curveSentences(part), sawSentence(part)]),
            accuracySentence,
          ]),
        )),
    ...coverSection(
      'Offsets, square off the reference line',
      wordTable(offsetRows(part, setting), width, offsetHead(part)),
    ),
    ...coverSection('The ends', endRows(part, width)),
    ...coverSection('The joints, on the marked face', jointRows(part, setting, width)),
    ...(mirrored ? [] : coverSection('Notes', part.notes ? paragraph(part.notes, width) : [])),
    ...coverSection('Take care', paragraphs([...(notes?.cautions ?? []), ...CAUTIONS])),
  ];
}
