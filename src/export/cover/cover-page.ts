import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { type SafetyId, safetyNote, safetySections } from '../../shop/words/safety.ts';
import type { Layout } from '../../tiling/layout.ts';
import { marginSides } from '../../tiling/paper/margins.ts';
import { DEFAULT_PAPER, type Paper, parsePaper } from '../../tiling/paper/paper-sizes.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import type { Unit } from '../../units/unit.ts';
import type { Dimensions } from '../drawing/dimensions.ts';
import { type Drawing, type Page, words } from '../drawing/drawing.ts';
import { scaleItem } from '../drawing/scale-item.ts';
import { type StandingDrawing, standingDrawing } from '../drawing/standing-drawing.ts';
import { LINE_SPACING, textWidth, wrapText } from '../drawing/text-width.ts';
import { assemblyMap, type MapLine } from './assembly-map.ts';
import { checkRows, straightEdge } from './check-rows.ts';
import { checkTable } from './check-table.ts';
import { endRows, endSafety, jointRows, jointSafety } from './cover-joinery.ts';
import {
  accuracySentence,
  BRIEF_SAFETY,
  COVER_SAFETY,
  curveSentences,
  flipSteps,
  grainSentences,
  measureAdvice,
  patternSubtitle,
  printSteps,
  sawSentence,
  tapeSteps,
} from './cover-words.ts';
import { offsetTable } from './offset-table.ts';
import { pairWords, patternTitle } from './pair-words.ts';
import type { PatternNotes } from './pattern-notes.ts';
import type { TextRow } from './text-columns.ts';
import {
  BODY_MM,
  blankRow,
  coverSection,
  drawRows,
  fillPages,
  numberedSteps,
  paragraphs,
} from './text-columns.ts';

const TITLES_MM = [10, 8, 6] as const;
const MIN_TITLE_MM = 6;
const SUBTITLE_MM = 3.6;
const GUTTER_MM = 8;
/** A column narrower than this reads badly, mm; a cover twice as wide has two. */
const MIN_COLUMN_MM = 70;
/** Shares of the cover's height that the map may take, to try in turn until all else fits on one page. */
const MAP_SHARES = [0.26, 0.2, 0.15, 0.12, 0.1] as const;
/** The cover leaves at least this much white, whatever the margin of the sheets, mm. */
const MIN_COVER_MARGIN_MM = 12.7;

interface CoverContent {
  readonly subtitle: string;
  readonly lines: readonly MapLine[];
  /** Beside the map, in type of this size. */
  readonly beside?: (
    room: { readonly width: number; readonly height: number },
    size: number,
  ) => StandingDrawing | undefined;
  /** What a wide cover has at the left, at the right, and across both; all of it on a narrow one. */
  readonly top?: (width: number) => readonly [left: readonly TextRow[], right: readonly TextRow[]];
  readonly across?: (width: number) => readonly TextRow[];
  /** `brief`: without what the card has as well. */
  readonly rows: (width: number, brief: boolean) => readonly TextRow[];
}

/** Of a pair that needs two patterns: the layout of the second. Both share the cover of the first. */
export const patternCover = (
  part: Part,
  layout: Layout,
  setting: Dimensions,
  notes?: PatternNotes,
  mirrored?: Layout,
): Page[] =>
  composeCover(part, layout, {
    subtitle: patternSubtitle(part, layout, notes?.what, mirrored),
    lines: [{ path: finishedLine(part.shape), closed: part.shape.type === 'closed' }],
    beside: (room, size) => standingDrawing(part, room, size),
    ...patternCoverRows(part, layout, setting, notes, mirrored),
  });

/** A cover, portrait on the same paper, in the largest type that holds it on one page; on small paper it runs on. */
function composeCover(part: Part, layout: Layout, cover: CoverContent): Page[] {
  for (const { enlarged, brief } of SETTINGS)
    for (const share of MAP_SHARES) {
      const pages = coverWithMap(part, layout, cover, { share, enlarged, brief });
      if (pages.length === 1) return pages;
    }
  return coverWithMap(part, layout, cover, { share: MAP_SHARES[2], enlarged: 1, brief: false });
}

interface CoverSetting {
  readonly share: number;
  readonly enlarged: number;
  readonly brief: boolean;
}

/** To try in turn: capitals of 2.7 mm to be read in the hand, then smaller ones, down to 2 mm. */
const SETTINGS: readonly Omit<CoverSetting, 'share'>[] = [
  { enlarged: 1.24, brief: false },
  { enlarged: 1.12, brief: false },
  { enlarged: 1, brief: false },
  { enlarged: 1, brief: true },
  { enlarged: 0.92, brief: true },
  { enlarged: 0.88, brief: true },
  { enlarged: 0.84, brief: true },
];

function coverWithMap(
  part: Part,
  layout: Layout,
  cover: CoverContent,
  { share, enlarged, brief }: CoverSetting,
): Page[] {
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
  const head = coverHead(part, layout, cover, page, share, BODY_MM * enlarged);
  // Words are laid out on a page that is smaller by the enlargement.
  const shrink = (box: Box): Box => ({
    left: box.left / enlarged,
    right: box.right / enlarged,
    bottom: box.bottom / enlarged,
    top: box.top / enlarged,
  });
  const drawing = { width, height, items: [] };
  const rows = (width: number) => cover.rows(width, brief);
  const pages = fillCover({ ...cover, rows }, shrink({ ...page, top: head.bottom }), shrink(page), drawing);
  return pages.map((one, i) => {
    const items = one.drawing.items.map((item) => scaleItem(item, enlarged));
    return { ...one, drawing: { ...one.drawing, items: i === 0 ? [...head.items, ...items] : items } };
  });
}

function fillCover(
  cover: Omit<CoverContent, 'rows'> & { readonly rows: (width: number) => readonly TextRow[] },
  first: Box,
  page: Box,
  drawing: Drawing,
): Page[] {
  const count = page.right - page.left >= 2 * MIN_COLUMN_MM + GUTTER_MM ? 2 : 1;
  const columnWidth = (page.right - page.left - (count - 1) * GUTTER_MM) / count;
  const columns = (box: Box): Box[] =>
    Array.from({ length: count }, (_, i) => {
      const left = box.left + i * (columnWidth + GUTTER_MM);
      return { ...box, left, right: left + columnWidth };
    });
  const rows = cover.rows(columnWidth);
  const [left, right] = cover.top?.(columnWidth) ?? [[], []];
  const flowed = [...left, ...(cover.across?.(columnWidth) ?? []), ...right, ...rows];
  const whole = page.right - page.left;
  const across = cover.across?.(whole) ?? [];
  const [one, other] = columns(first);
  const below = first.top - Math.max(rowsHeight(left), rowsHeight(right));
  const rest = below - rowsHeight(across);
  if (!one || !other || rest < first.bottom)
    return fillPages(flowed, 'cover', drawing, columns(first), columns(page));
  const items = [
    ...drawRows(left, one.left, one.top),
    ...drawRows(right, other.left, other.top),
    ...drawRows(across, first.left, below),
  ];
  return fillPages(rows, 'cover', { ...drawing, items }, columns({ ...first, top: rest }), columns(page));
}

const rowsHeight = (rows: readonly TextRow[]): number => rows.reduce((sum, { height }) => sum + height, 0);

/** Of the width for a drawing beside the map, and its least height in type sizes. */
const BESIDE_SHARE = 0.5;
const LEAST_BESIDE = 13;

const coverPaper = ({ rule }: Part, { paper }: Layout): Paper =>
  paper.roll ? parsePaper(DEFAULT_PAPER[rule.unit]) : paper;

function coverHead(
  part: Part,
  layout: Layout,
  cover: CoverContent,
  page: Box,
  mapShare: number,
  type: number,
) {
  const width = page.right - page.left;
  const name = patternTitle(part, layout);
  const size = TITLES_MM.find((one) => textWidth(name, one) <= width) ?? MIN_TITLE_MM;
  const titles = wrapText(name, size, width);
  const title = page.top - size * 0.75;
  const last = title - size * LINE_SPACING * (titles.length - 1);
  const lines = wrapText(cover.subtitle, SUBTITLE_MM, width);
  const high = (page.top - page.bottom) * mapShare;
  const room = { width: width * BESIDE_SHARE, height: Math.max(high, LEAST_BESIDE * type) };
  const beside = cover.beside?.(room, type);
  const mapWidth = beside ? width - beside.width - GUTTER_MM : width;
  const map = assemblyMap(cover.lines, layout, mapWidth, high);
  const below = (count: number): number => last - SUBTITLE_MM * LINE_SPACING * count;
  const mapTop = below(lines.length + 0.6) - 1;
  const items = [
    ...titles.map((line, i) => ({
      ...words(line, { x: page.left, y: title - size * LINE_SPACING * i }, size),
      bold: true as const,
    })),
    ...lines.map((line, i) => words(line, { x: page.left, y: below(i + 1.3) }, SUBTITLE_MM)),
    ...map.draw(page.left, mapTop),
    ...(beside?.draw(page.right - beside.width, mapTop) ?? []),
  ];
  return { items, bottom: mapTop - Math.max(map.height, beside?.height ?? 0) - 4 };
}

function patternCoverRows(
  part: Part,
  layout: Layout,
  setting: Dimensions,
  notes: PatternNotes | undefined,
  mirrored: Layout | undefined,
): Pick<CoverContent, 'top' | 'across' | 'rows'> {
  const { rule } = part;
  const steps = (title: string, texts: readonly string[], width: number): TextRow[] =>
    coverSection(title, numberedSteps(texts, width));
  const words = (title: string, texts: readonly string[], width: number): TextRow[] =>
    coverSection(title, paragraphs(texts, width));
  const ofLine = notes?.sentences ?? grainSentences(part);
  const checks = checkRows(part, layout, setting);
  const pair = part.pair === 'identical' ? 'Identical parts' : 'The pair';
  const safety = [...(notes?.safety ?? []), ...endSafety(part)];
  return {
    top: (width) => [
      [
        ...(notes?.sections ?? []).flatMap((section) => steps(section.title, section.steps, width)),
        ...steps('1 Check the scale of the print', printSteps(layout, rule), width),
        ...steps('2 Tape', tapeSteps(layout, mirrored), width),
        ...steps('Flip', flipSteps(part), width),
        ...words(pair, pairWords(part, mirrored), width),
      ],
      [
        ...coverSection('Offsets, square from the reference line', offsetTable(part, setting, width)),
        ...(notes ? [] : paragraphs([sawSentence(part)], width)),
      ],
    ],
    across: (width) =>
      coverSection('3 Check the taped pattern before you cut wood', [
        ...checkTable(checks, width),
        blankRow(1),
        ...paragraphs(measureAdvice(layout, rule, straightEdge(part) !== undefined), width),
      ]),
    rows: (width, brief) => [
      ...coverSection('The ends', endRows(part, width)),
      ...coverSection('The joints, on the reference face', jointRows(part, setting, width, brief)),
      ...words('Notes', [...ofLine, ...(part.notes ? [part.notes] : [])], width),
      ...safetyRows(
        [...new Set([...(brief ? BRIEF_SAFETY : [...COVER_SAFETY, ...jointSafety(setting)]), ...safety])],
        rule.unit,
        width,
      ),
      ...(brief
        ? []
        : words('The curve', [...(notes ? [] : curveSentences(part)), accuracySentence(rule)], width)),
    ],
  };
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
