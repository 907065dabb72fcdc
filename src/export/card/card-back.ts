import type { Box } from '../../curves/geometry/bounds.ts';
import { point } from '../../curves/geometry/point.ts';
import {
  BODY_MM,
  blankRow,
  bodyRow,
  drawRows,
  fillPages,
  headingRow,
  keepTogether,
  type TextRow,
} from '../cover/text-columns.ts';
import { boxCorners, type Item, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, LINE_SPACING, wrapText } from '../drawing/text-width.ts';
import { backTitle, GUTTER_MM, ruleAcross, SIGNATURE_HEIGHT_MM, signatureItems } from './card-frame.ts';
import { type MakingPlans, makingSections } from './card-making.ts';
import { SECTION_GAP_MM } from './fit-sections.ts';

/** Capitals of 3.5 mm, read off a wall; a long order of cuts is set smaller before it takes a page of its own. */
const STEP_SIZES_MM = [5.3, 4.4, 3.6] as const;
const STEP_INDENT_MM = 17;
const NUMBER_AT_MM = 8;
const BOX_MM = 5;
const STEP_GAP_MM = 1.6;
/** A longer order of cuts has sides of its own; a share of the side. */
const STEPS_SHARE = 0.7;

interface Making extends MakingPlans {
  readonly page: Box;
  readonly cautions: readonly string[];
}

/** Every step of the order of cuts, then the saw, the batten, the wood and all the cautions. */
export function backSides({ page, cautions, ...plans }: Making, hasWood: boolean) {
  const width = (page.right - page.left - GUTTER_MM) / 2;
  const making = makingSections(plans, width);
  const order = making.order.variants[0]?.list as readonly string[];
  const sections = [...making.settings, ...(hasWood ? [making.wood] : [])].map(
    ({ name, title, variants: [full] }) => ({ name, title, full }),
  );
  const rest = [
    ...sections.flatMap(({ title, full }) =>
      full ? [headingRow(title), ...full.rows, blankRow(SECTION_GAP_MM)] : [],
    ),
    headingRow('Safety'),
    ...cautionRows(cautions, width),
  ];
  const head = backTitle(plans.part, page);
  const bottom = page.bottom + SIGNATURE_HEIGHT_MM;
  const room = { ...page, bottom, top: head.bottom };
  const lists = Object.fromEntries([
    ['order', order] as const,
    ...sections.map(({ name, full }) => [name, full?.list] as const),
  ]);
  const sides = fillBack(order, rest, room, { ...page, bottom }).map((items, i) => [
    ...(i === 0 ? head.items : []),
    ...items,
    ...signatureItems(page),
  ]);
  return { sides, lists };
}

/** All of one signal word in one paragraph, which may go on in the next column. */
function cautionRows(cautions: readonly string[], width: number): TextRow[] {
  const bySignal = new Map<string, string[]>();
  for (const caution of cautions) {
    const [signal = '', ...words] = caution.split(': ');
    bySignal.set(signal, [...(bySignal.get(signal) ?? []), words.join(': ')]);
  }
  return [...bySignal].flatMap(([signal, words]) => [
    ...wrapText(`${signal}: ${words.join(' ')}`, BODY_MM, width).map((line) => bodyRow(0, line)),
    blankRow(1),
  ]);
}

/** In the largest steps with which all fits on one side, else on as many sides as it takes. */
function fillBack(order: readonly string[], rest: readonly TextRow[], first: Box, further: Box): Item[][] {
  const filled = STEP_SIZES_MM.map((size) => fillWithSteps(order, rest, size, first, further));
  return filled.find(({ length }) => length === 1) ?? filled[0] ?? [];
}

function fillWithSteps(
  order: readonly string[],
  rest: readonly TextRow[],
  size: number,
  first: Box,
  further: Box,
): Item[][] {
  const steps = stepRows(order, size, first.right - first.left);
  const height = heightOf(steps);
  const drawing = { width: 0, height: 0, items: [] };
  const itemsOf = (pages: ReturnType<typeof fillPages>): Item[][] =>
    pages.map((page) => [...page.drawing.items]);
  if (height > (first.top - first.bottom) * STEPS_SHARE) {
    const ofSteps = itemsOf(fillPages(steps, 'steps', drawing, [first], [further]));
    return [...ofSteps, ...itemsOf(fillPages(rest, 'rest', drawing, columns(further)))];
  }
  const below = { ...first, top: first.top - height - 4 };
  const items = [...drawRows(steps, first.left, first.top), ruleAcross(first, first.top - height - 1)];
  return itemsOf(fillPages(rest, 'rest', { ...drawing, items }, columns(below), columns(further)));
}

const heightOf = (rows: readonly TextRow[]): number => rows.reduce((sum, { height }) => sum + height, 0);

function columns(box: Box): Box[] {
  const width = (box.right - box.left - GUTTER_MM) / 2;
  return [
    { ...box, right: box.left + width },
    { ...box, left: box.right - width },
  ];
}

/** Each with a box to check off. */
const stepRows = (order: readonly string[], size: number, width: number): TextRow[] =>
  order.flatMap((text, i) => {
    const lines = wrapText(text, size, width - STEP_INDENT_MM);
    const rows = lines.map(
      (line, l): TextRow => ({
        height: size * LINE_SPACING,
        draw: (left, top) => {
          const y = top - size * 0.95;
          const bottom = y - (BOX_MM - size * CAP_HEIGHT) / 2;
          const box = { left, right: left + BOX_MM, bottom, top: bottom + BOX_MM };
          const before: Item[] =
            l > 0
              ? []
              : [
                  polyline('rule', boxCorners(box), true),
                  words(`${i + 1}`, point(left + NUMBER_AT_MM, y), size),
                ];
          return [...before, words(line, point(left + STEP_INDENT_MM, y), size)];
        },
      }),
    );
    return [...keepTogether(rows), blankRow(STEP_GAP_MM)];
  });
