import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { standingWords } from '../../shop/words/foot-out-words.ts';
import { type SafetyId, safetyNote, safetySections } from '../../shop/words/safety.ts';
import type { Layout } from '../../tiling/layout.ts';
import { marginSides } from '../../tiling/paper/margins.ts';
import { DEFAULT_PAPER, type Paper, parsePaper } from '../../tiling/paper/paper-sizes.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import type { Unit } from '../../units/unit.ts';
import { type Dimensions, printedLength, sentence } from '../drawing/dimensions.ts';
import { type Page, words } from '../drawing/drawing.ts';
import { standingDrawing } from '../drawing/standing-drawing.ts';
import { LINE_SPACING, textWidth, truncateToWidth, wrapText } from '../drawing/text-width.ts';
import { wordTable } from '../tables/paper-table.ts';
import { assemblyMap, type MapLine } from './assembly-map.ts';
import { endRows, jointRows } from './cover-joinery.ts';
import {
  accuracySentence,
  COVER_SAFETY,
  curveSentences,
  flipSteps,
  grainSentences,
  measureAdvice,
  measureRows,
  offsetHead,
  offsetRows,
  patternSubtitle,
  printSteps,
  sawSentence,
  tapeSteps,
  toleranceSentence,
} from './cover-words.ts';
import { pairWords, patternTitle } from './pair-words.ts';
import type { PatternNotes } from './pattern-notes.ts';
import type { TextRow } from './text-columns.ts';
import { BODY_MM, blankRow, coverSection, fillPages, numberedSteps, paragraphs } from './text-columns.ts';

const TITLES_MM = [10, 8, 6] as const;
const MIN_TITLE_MM = 6;
const SUBTITLE_MM = 3.6;
const GUTTER_MM = 8;
/** A column narrower than this reads badly, mm; a cover twice as wide has two. */
const MIN_COLUMN_MM = 70;
/** Shares of the cover's height that the map may take, to try in turn until all else fits on one page. */
const MAP_SHARES = [0.26, 0.2, 0.15, 0.12] as const;
/** The cover leaves at least this much white, whatever the margin of the sheets, mm. */
const MIN_COVER_MARGIN_MM = 12.7;

interface CoverContent {
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

/** A cover, portrait on the same paper; on small paper its words run on to more pages. */
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
  const columns = (from: number): Box[] =>
    Array.from({ length: count }, (_, i) => {
      const columnLeft = page.left + i * (columnWidth + GUTTER_MM);
      return { ...page, top: from, left: columnLeft, right: columnLeft + columnWidth };
    });
  const head = coverHead(part, layout, cover, page, mapShare);
  const name = layout.mirrored ? 'mirrored cover' : 'cover';
  const drawing = { width, height, items: head.items };
  return fillPages(cover.rows(columnWidth), name, drawing, columns(head.bottom), columns(page.top));
}

const coverPaper = ({ rule }: Part, { paper }: Layout): Paper =>
  paper.roll ? parsePaper(DEFAULT_PAPER[rule.unit]) : paper;

function coverHead(part: Part, layout: Layout, cover: CoverContent, page: Box, mapShare: number) {
  const width = page.right - page.left;
  const name = patternTitle(part, layout);
  const size = TITLES_MM.find((one) => textWidth(name, one) <= width) ?? MIN_TITLE_MM;
  const title = page.top - size * 0.75;
  const lines = wrapText(cover.subtitle, SUBTITLE_MM, width);
  const map = assemblyMap(cover.lines, layout, width, (page.top - page.bottom) * mapShare);
  const below = (count: number): number => title - SUBTITLE_MM * LINE_SPACING * count;
  const mapTop = below(lines.length + 0.6) - 4;
  const items = [
    words(truncateToWidth(name, size, width), { x: page.left, y: title }, size),
    ...lines.map((line, i) => words(line, { x: page.left, y: below(i + 1.3) }, SUBTITLE_MM)),
    ...map.draw(page.left, mapTop),
  ];
  return { items, bottom: mapTop - map.height - 6 };
}

/** Distances to check, their tolerances, and what helps. */
export const measureSection = (title: string, rows: string[][], texts: readonly string[], width: number) =>
  coverSection(title, [...wordTable(rows, width), blankRow(1), ...paragraphs(texts, width)]);

/** The cover of a mirrored pattern follows the first's and says only what differs. */
function patternCoverRows(
  part: Part,
  layout: Layout,
  setting: Dimensions,
  width: number,
  notes: PatternNotes | undefined,
): TextRow[] {
  const once = <T>(list: readonly T[]): readonly T[] => (layout.mirrored ? [] : list);
  const steps = (title: string, texts: readonly string[]): TextRow[] =>
    coverSection(title, numberedSteps(texts, width));
  const words = (title: string, texts: readonly string[]): TextRow[] =>
    coverSection(title, paragraphs(texts, width));
  const ofLine = notes?.sentences ?? [...curveSentences(part), sawSentence(part), ...grainSentences(part)];
  const offsets = wordTable(offsetRows(part, setting), width, offsetHead(part));
  const tolerances = [toleranceSentence(layout, part.rule), ...once(measureAdvice(layout, part.rule))];
  return [
    ...(notes?.sections ?? []).flatMap((section) => steps(section.title, section.steps)),
    ...once(steps('Print', printSteps(layout, part.rule))),
    ...steps('Tape', tapeSteps(layout)),
    ...steps('Flip', flipSteps(part)),
    ...words(part.pair === 'identical' ? 'Identical parts' : 'The pair', pairWords(part, layout)),
    ...measureSection(
      'Check distances, before you cut',
      measureRows(part, layout, setting),
      tolerances,
      width,
    ),
    ...once(words('The curve', [...ofLine, accuracySentence(part.rule)])),
    ...coverSection('Offsets, square from the reference line', offsets),
    ...coverSection('As it stands', once(standingRows(part, width))),
    ...coverSection('The ends', endRows(part, width)),
    ...coverSection('The joints, on the reference face', jointRows(part, setting, width)),
    ...once(words('Notes', part.notes ? [part.notes] : [])),
    ...safetyRows([...(notes?.safety ?? []), ...COVER_SAFETY], part.rule.unit, width),
  ];
}

const STANDING_HEIGHT_MM = 70;

/** The leg on the floor from the front and from the side, and how far its foot is out. */
export function standingRows(part: Part, width: number): TextRow[] {
  const drawing = standingDrawing(part, { width, height: STANDING_HEIGHT_MM }, BODY_MM);
  const told = standingWords(part, (mm) => printedLength(mm, part.rule));
  if (!drawing || told === undefined) return [];
  const { height, draw } = drawing;
  return [{ height, withNext: true, draw }, blankRow(1), ...paragraphs([sentence(told)], width)];
}

/** One heading: a cover of one page has no room for two. */
function safetyRows(ids: readonly SafetyId[], unit: Unit, width: number): TextRow[] {
  const [first, ...others] = safetySections(ids.map((id) => safetyNote(id, unit))).map(
    ({ title, messages }) => ({ title, words: typesetMeasures(messages.join(' ')) }),
  );
  if (!first) return [];
  const runIn = others.map(({ title, words }) => `${title}: ${words}`);
  return coverSection(first.title, paragraphs([first.words, ...runIn], width));
}
