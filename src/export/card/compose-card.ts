import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import { adviseSawing } from '../../shop/saw/advise-sawing.ts';
import { planWood } from '../../shop/stock/stock-plan.ts';
import type { Paper } from '../../tiling/paper/paper-sizes.ts';
import { present } from '../../units/lists.ts';
import { blankRow, drawRows, headingRow } from '../cover/text-columns.ts';
import { dimensionsOf } from '../drawing/dimensions.ts';
import type { Item, Page } from '../drawing/drawing.ts';
import { scaleItem } from '../drawing/scale-item.ts';
import { backSides } from './card-back.ts';
import { cardCautions, fitCautions } from './card-cautions.ts';
import { cardDrawing } from './card-drawing.ts';
import {
  GUTTER_MM,
  ruleAcross,
  SIGNATURE_HEIGHT_MM,
  signatureItems,
  subtitleItem,
  titleItems,
} from './card-frame.ts';
import { jointsSection } from './card-joints.ts';
import { makingSections } from './card-making.ts';
import { measuresSection } from './card-measures.ts';
import { edgesWithOffsets, offsetsSection } from './card-offsets.ts';
import { standingSection } from './card-standing.ts';
import { adviseCurvedRuns } from './card-strip.ts';
import { cutListRow } from './card-wood.ts';
import { type CardSection, fitSections, SECTION_GAP_MM } from './fit-sections.ts';

/** How a card is laid out. */
export interface CardOptions {
  /** One of `PAPERS`, as it stands upright. */
  readonly paper: Paper;
}

/** A card and what stands on it, as data. */
export interface Card {
  /** Ready for a writer, of the paper’s size: one side where all fits on it, else the front and the back. */
  readonly pages: readonly Page[];
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
/** Share of the width for the figures with their boxes, by how many edges are bent and have their own. */
const FIGURES_COLUMN_SHARE = [0.44, 0.5, 0.58] as const;
const DRAWING_SHARE = 0.25;
const CAUTIONS_HEIGHT_MM = 18.6;

/** For the shop wall: what to set out, set, saw, cut and measure for one part. */
export const cardPages = (part: Part, options: CardOptions): readonly Page[] =>
  composeCard(part, options).pages;

/** The card with the lists that it prints. */
export function composeCard(part: Part, { paper }: CardOptions): Card {
  const enlarged = Math.min(MAX_ENLARGEMENT, Math.max(1, paper.width / DESIGN_WIDTH_MM));
  const [width, height] = [paper.width / enlarged, paper.height / enlarged];
  const [left, bottom] = [SIDE_MARGIN_MM, END_MARGIN_MM];
  const page = { left, bottom, right: width - left, top: height - bottom };
  const content = cardContent(part, page, enlarged);
  const card = oneSide(content) ?? twoSides(content);
  const pages = card.sides.map((items, i): Page => {
    const name = ['card', 'card back'][i] ?? `card back ${i}`;
    const drawn = items.map((item) => scaleItem(item, enlarged));
    return { name, drawing: { width: paper.width, height: paper.height, items: drawn } };
  });
  return { pages, scale: content.drawn.scale, lists: card.lists };
}

type CardContent = ReturnType<typeof cardContent>;

function cardContent(part: Part, page: Box, enlarged: number) {
  const setting = dimensionsOf(part);
  const sawing = adviseSawing(part);
  const runs = adviseCurvedRuns(part);
  const plan = planWood(part, {});
  const head = titleItems(part, page);
  const space = { ...page, top: head.bottom, bottom: head.bottom - (page.top - page.bottom) * DRAWING_SHARE };
  const drawn = cardDrawing(part, setting, space, enlarged);
  const top: Item[] = [
    ...head.items,
    subtitleItem(part, cutListRow(part, plan).finished, drawn.scale, page, head.subtitle),
    ...drawn.items,
    ruleAcross(page, drawn.bottom - 1.5),
  ];
  return { part, page, setting, sawing, runs, plan, drawn, top, cautions: cardCautions(part, sawing, runs) };
}

interface Sides {
  readonly sides: readonly (readonly Item[])[];
  readonly lists: Card['lists'];
}

type FilledColumn = ReturnType<typeof fillColumn>;

const listsOf = (filled: readonly FilledColumn[], cautions: readonly string[]): Card['lists'] =>
  Object.fromEntries([
    ...filled.flatMap(({ printed }) => printed.map(({ name, list }) => [name, list] as const)),
    ['cautions', cautions] as const,
  ]);

/** Undefined where a section would have to be shortened. */
function oneSide({
  part,
  page,
  setting,
  sawing,
  runs,
  plan,
  drawn,
  top,
  cautions,
}: CardContent): Sides | undefined {
  if (part.stands) return undefined;
  const foot = footItems(cautions, page);
  const [left, right] = splitColumns(part, { ...page, top: drawn.bottom - 4, bottom: foot.top + 3 });
  const width = right.right - right.left;
  const figures = left.right - left.left;
  const { wood, beside, order } = makingSections({ part, sawing, runs, plan }, width);
  const filled = [
    fillColumn([offsetsSection(part, figures), measuresSection(part, figures)], left),
    fillColumn(present(wood, ...beside, jointsSection(part, setting, width), order), right),
  ];
  const isFull = filled.every(({ printed }) => printed.every((section) => section.isFull));
  if (!isFull || foot.shown.length < cautions.length) return undefined;
  const side = [...top, ...filled.flatMap(({ items }) => items), ...foot.items];
  return { sides: [side], lists: listsOf(filled, cautions) };
}

/** The front shows the part and its figures, the back says how to make it; nothing of the back is left out. */
function twoSides(content: CardContent): Sides {
  const { part, page, setting, drawn, top, cautions } = content;
  const [left, right] = splitColumns(part, { ...page, top: drawn.bottom - 4 });
  const [figures, others] = [left.right - left.left, right.right - right.left];
  const toRead = present(offsetsSection(part, figures), jointsSection(part, setting, figures));
  const toMeasure = present(standingSection(part, others), measuresSection(part, others));
  // The wood is on the front where it leaves room enough for some measures.
  const wood = { ...makingSections(content, others).wood, priority: 1.5 };
  const withWood = fillColumn([...toMeasure, { ...wood, variants: wood.variants.slice(0, 1) }], right);
  const hasWood = withWood.printed.every(({ rows }) => rows.length > 0);
  const front = [fillColumn(toRead, left), hasWood ? withWood : fillColumn(toMeasure, right)];
  const back = backSides(content, !hasWood);
  return {
    sides: [[...top, ...front.flatMap(({ items }) => items)], ...back.sides],
    lists: { ...listsOf(front, cautions), ...back.lists },
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
