import type { Box } from '../../curves/geometry/bounds.ts';
import { point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { adviseSawing } from '../../shop/saw/advise-sawing.ts';
import { planWood } from '../../shop/stock/stock-plan.ts';
import type { Paper } from '../../tiling/paper/paper-sizes.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { BODY_MM, blankRow, drawRows, headingRow } from '../cover/text-columns.ts';
import { dimensionsOf, graduationText } from '../drawing/dimensions.ts';
import { type Item, type Page, polyline, words } from '../drawing/drawing.ts';
import { scaleItem } from '../drawing/scale-item.ts';
import { LINE_SPACING, textWidth, truncateToWidth, wrapText } from '../drawing/text-width.ts';
import { scaleRatio } from '../pictures/picture-frame.ts';
import { cardCautions, fitCautions } from './card-cautions.ts';
import { cardDrawing } from './card-drawing.ts';
import { jointsSection } from './card-joints.ts';
import { measuresSection } from './card-measures.ts';
import { edgesWithOffsets, offsetsSection } from './card-offsets.ts';
import { cutOrderSection, sawSection } from './card-saw.ts';
import { adviseCurvedRuns, stripSection } from './card-strip.ts';
import { cutListRow, woodSection } from './card-wood.ts';
import { type CardSection, fitSections, SECTION_GAP_MM } from './fit-sections.ts';

/** How a card is laid out. */
export interface CardOptions {
  /** One of `PAPERS`, as it stands upright. */
  readonly paper: Paper;
}

/** A card and what stands on it, as data. */
export interface Card {
  /** Ready for a writer, of the paper’s size. */
  readonly page: Page;
  /** Of the drawing: paper mm to a part mm. */
  readonly scale: number;
  /** The lists that are printed, by name, as far as they found room. */
  readonly lists: Readonly<Record<string, unknown>>;
}

/** The card is laid out for a sheet this wide; a wider one carries the same in larger type. */
const DESIGN_WIDTH_MM = 210;
const MAX_ENLARGEMENT = 1.45;
/** Wider at the sides, where a card is pinned and held. */
const SIDE_MARGIN_MM = 12.7;
const END_MARGIN_MM = 11;
const GUTTER_MM = 8;
/** Share of the width for the figures with their boxes, by how many edges are bent and have their own. */
const FIGURES_COLUMN_SHARE = [0.44, 0.44, 0.56] as const;
const DRAWING_SHARE = 0.25;
const CAUTIONS_HEIGHT_MM = 18.6;
const SIGNATURE_HEIGHT_MM = 9;
const TITLE_SIZES_MM = [10, 8.5, 7] as const;
const QUANTITY_MM = 5.5;
const SUBTITLE_MM = 3.6;
const MAX_NOTE_LINES = 2;

/** One page for the shop wall: what to set out, set, saw, cut and measure for one part. */
export const cardPage = (part: Part, options: CardOptions): Page => composeCard(part, options).page;

/** The card with the lists that it prints. */
export function composeCard(part: Part, { paper }: CardOptions): Card {
  const enlarged = Math.min(MAX_ENLARGEMENT, Math.max(1, paper.width / DESIGN_WIDTH_MM));
  const [width, height] = [paper.width / enlarged, paper.height / enlarged];
  const [left, bottom] = [SIDE_MARGIN_MM, END_MARGIN_MM];
  const page = { left, bottom, right: width - left, top: height - bottom };
  const { items, ...card } = layOutCard(part, page, enlarged);
  const enlargedItems = items.map((item) => scaleItem(item, enlarged));
  const drawing = { width: paper.width, height: paper.height, items: enlargedItems };
  return { page: { name: 'card', drawing }, ...card };
}

function layOutCard(part: Part, page: Box, enlarged: number): { items: Item[] } & Omit<Card, 'page'> {
  const setting = dimensionsOf(part);
  const sawing = adviseSawing(part);
  const runs = adviseCurvedRuns(part);
  const plan = planWood(part, {});
  const head = titleItems(part, page);
  const space = { ...page, top: head.bottom, bottom: head.bottom - (page.top - page.bottom) * DRAWING_SHARE };
  const drawn = cardDrawing(part, setting, space, enlarged);
  const foot = footItems(cardCautions(part, sawing, runs), page);
  const [left, right] = splitColumns(part, { ...page, top: drawn.bottom - 4, bottom: foot.top + 3 });
  const [figures, settings] = [left.right - left.left, right.right - right.left];
  const joints = jointsSection(part, setting, settings);
  const [toRead, toSet] = [
    [offsetsSection(part, figures), measuresSection(part, figures)],
    [
      woodSection(part, plan, settings),
      stripSection(part, runs, settings),
      sawSection(part, sawing, settings),
      ...(joints ? [joints] : []),
      cutOrderSection(part, sawing, settings),
    ],
  ];
  const filled = [fillColumn(toRead, left), fillColumn(toSet, right)];
  return {
    items: [
      ...head.items,
      subtitleItem(part, cutListRow(part, plan).finished, drawn.scale, page, head.subtitle),
      ...drawn.items,
      ruleAcross(page, drawn.bottom - 1.5),
      ...filled.flatMap(({ items }) => items),
      ...foot.items,
    ],
    scale: drawn.scale,
    lists: Object.fromEntries([
      ...filled.flatMap(({ printed }) => printed.map(({ name, list }) => [name, list])),
      ['cautions', foot.shown],
    ]),
  };
}

function splitColumns(part: Part, page: Box): readonly [Box, Box] {
  const share = FIGURES_COLUMN_SHARE[edgesWithOffsets(part).length] ?? FIGURES_COLUMN_SHARE[2];
  const middle = page.left + (page.right - page.left - GUTTER_MM) * share;
  return [
    { ...page, right: middle },
    { ...page, left: middle + GUTTER_MM },
  ];
}

function fillColumn(sections: readonly CardSection[], { left, bottom, top }: Box) {
  const printed = fitSections(sections, top - bottom + SECTION_GAP_MM);
  const rows = printed.flatMap((section) =>
    section.rows.length > 0 ? [...section.rows, blankRow(SECTION_GAP_MM)] : [],
  );
  return { items: drawRows(rows, left, top), printed };
}

function titleItems(part: Part, page: Box) {
  const quantity = quantityWords(part);
  const room = page.right - page.left - textWidth(quantity, QUANTITY_MM) - GUTTER_MM;
  const name = typesetMeasures(part.name);
  const size = TITLE_SIZES_MM.find((one) => textWidth(name, one) <= room) ?? TITLE_SIZES_MM[2];
  const base = page.top - size * 0.72;
  const subtitle = base - SUBTITLE_MM * 1.75;
  const notes = noteLines(part, page.right - page.left);
  const lineHeight = BODY_MM * LINE_SPACING;
  const first = subtitle - lineHeight * 1.15;
  return {
    items: [
      words(truncateToWidth(name, size, room), point(page.left, base), size),
      words(quantity, point(page.right, base), QUANTITY_MM, 'end'),
      ...notes.map((note, i) => words(note, point(page.left, first - i * lineHeight), BODY_MM)),
    ],
    subtitle,
    bottom: first - (notes.length - 1) * lineHeight - 3,
  };
}

const quantityWords = ({ quantity, pair }: Part): string =>
  `quantity ${quantity}${pair === 'mirrored' && quantity > 1 ? `, ${quantity / 2} mirrored` : ''}`;

function noteLines({ notes = '' }: Part, width: number): string[] {
  const lines = wrapText(typesetMeasures(notes), BODY_MM, width);
  if (lines.length <= MAX_NOTE_LINES) return lines;
  const last = lines.slice(MAX_NOTE_LINES - 1).join(' ');
  return [...lines.slice(0, MAX_NOTE_LINES - 1), truncateToWidth(last, BODY_MM, width)];
}

function subtitleItem({ rule, stock }: Part, finished: string, scale: number, page: Box, y: number): Item {
  const facts = [finished, `drawn ${scaleRatio(scale)}`, `lengths to ${graduationText(rule)}`];
  const line = [...(stock?.species === undefined ? [] : [stock.species]), ...facts].join(' · ');
  return words(truncateToWidth(line, SUBTITLE_MM, page.right - page.left), point(page.left, y), SUBTITLE_MM);
}

const ruleAcross = ({ left, right }: Pick<Box, 'left' | 'right'>, y: number): Item =>
  polyline('rule', [point(left, y), point(right, y)]);

function footItems(cautions: readonly string[], page: Box) {
  const title = headingRow('Safety');
  const bottom = page.bottom + SIGNATURE_HEIGHT_MM;
  const top = bottom + CAUTIONS_HEIGHT_MM + title.height + 2;
  const half = (page.right - page.left - GUTTER_MM) / 2;
  const box = { ...page, bottom, top: top - title.height - 2 };
  const { items, shown } = fitCautions(cautions, [
    { ...box, right: page.left + half },
    { ...box, left: page.right - half },
  ]);
  const head = [ruleAcross(page, top), ...title.draw(page.left, top - 2)];
  return { items: [...head, ...items, ...signatureItems(page)], shown, top };
}

const SIGNATURE_FIELDS = ['made by', 'date', 'pattern code', 'copy'] as const;

function signatureItems(page: Box): Item[] {
  const each = (page.right - page.left) / SIGNATURE_FIELDS.length;
  return SIGNATURE_FIELDS.flatMap((field, i): Item[] => {
    const left = page.left + i * each;
    const blank = { left: left + textWidth(field, BODY_MM) + 2, right: left + each - 4 };
    return [words(field, point(left, page.bottom + 0.9), BODY_MM), ruleAcross(blank, page.bottom)];
  });
}
