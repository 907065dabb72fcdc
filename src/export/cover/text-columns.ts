import type { Box } from '../../curves/geometry/bounds.ts';
import { type Drawing, type Item, type Page, words } from '../drawing/drawing.ts';
import { LINE_SPACING, wrapText } from '../drawing/text-width.ts';

/** A strip across a column that is not broken: a line of words, a row of a table. */
export interface TextRow {
  readonly height: number;
  readonly withNext?: boolean;
  readonly blank?: boolean;
  readonly draw: (left: number, top: number) => Item[];
}

const HEADING_MM = 4.4;
export const BODY_MM = 3.3;
/** First baseline below a row's top, parts of the type size. */
export const BASELINE_SHARE = 0.95;

/** Empty space between two rows, mm high. */
export const blankRow = (height: number): TextRow => ({ height, blank: true, draw: () => [] });

export const headingRow = (text: string): TextRow => ({
  height: HEADING_MM * LINE_SPACING * 1.15,
  withNext: true,
  draw: (x, top) => [words(text, { x, y: top - HEADING_MM * BASELINE_SHARE }, HEADING_MM)],
});

/** One line of body text, indented; `before` hangs at the left. */
export const bodyRow = (indent: number, text: string, before = ''): TextRow => ({
  height: BODY_MM * LINE_SPACING,
  draw: (x, top) => {
    const y = top - BODY_MM * BASELINE_SHARE;
    const first = before === '' ? [] : [words(before, { x, y }, BODY_MM)];
    return [...first, words(text, { x: x + indent, y }, BODY_MM)];
  },
});

export const keepWithNext = (rows: readonly TextRow[]): TextRow[] =>
  rows.map((row) => ({ ...row, withNext: true }));

export const coverSection = (title: string, rows: readonly TextRow[]): TextRow[] =>
  rows.length === 0 ? [] : [headingRow(title), ...rows, blankRow(2)];

/** Each broken to the width of the column (mm) and kept together. */
export const paragraphs = (texts: readonly string[], width: number): TextRow[] =>
  texts.flatMap((text) => paragraph(text, width));

/** Broken to the width of the column (mm) and kept together. */
export const paragraph = (text: string, width: number): TextRow[] => [
  ...keepTogether(wrapText(text, BODY_MM, width).map((line) => bodyRow(0, line))),
  blankRow(1),
];

export const keepTogether = (rows: readonly TextRow[]): TextRow[] =>
  rows.map((row, i) => ({ ...row, withNext: i < rows.length - 1 }));

const NUMBER_INDENT_MM = 5;

/** Their numbers hang; width in mm. */
export const numberedSteps = (texts: readonly string[], width: number): TextRow[] =>
  texts.flatMap((text, i) => {
    const lines = wrapText(text, BODY_MM, width - NUMBER_INDENT_MM);
    const rows = lines.map((line, j) => bodyRow(NUMBER_INDENT_MM, line, j === 0 ? `${i + 1}.` : ''));
    return [...keepTogether(rows), blankRow(0.8)];
  });

/** One below the other from a left top corner, mm. */
export function drawRows(rows: readonly TextRow[], left: number, top: number): Item[] {
  let y = top;
  return rows.flatMap((row) => {
    const items = row.draw(left, y);
    y -= row.height;
    return items;
  });
}

/** A heading keeps its rows, unless they are more than the tallest column holds. */
function fillColumns(rows: readonly TextRow[], columns: readonly Box[]) {
  const items: Item[] = [];
  const tallest = Math.max(...columns.map(({ bottom, top }) => top - bottom));
  let next = 0;
  for (const { left, bottom, top } of columns) {
    let y = top;
    for (let row = rows[next]; row; row = rows[++next]) {
      const fresh = y === top;
      if (fresh && row.blank) continue;
      const group = rows[next - 1]?.withNext ? row.height : groupHeight(rows, next);
      const needed = group > tallest ? row.height : group;
      if (!fresh && y - needed < bottom) break;
      items.push(...row.draw(left, y));
      y -= row.height;
    }
  }
  const rest = rows.slice(next);
  return { items, rest: rest.every(({ blank }) => blank) ? [] : rest };
}

function groupHeight(rows: readonly TextRow[], at: number): number {
  let height = 0;
  for (let row = rows[at]; row; row = row.withNext ? rows[++at] : undefined) height += row.height;
  return height;
}

/** Below what stands on the first page, then in the columns of further pages, numbered after `name`. */
export function fillPages(
  rows: readonly TextRow[],
  name: string,
  { items, ...size }: Drawing,
  first: readonly Box[],
  columns = first,
): Page[] {
  const filled = fillColumns(rows, first);
  const pages = [{ name, drawing: { ...size, items: [...items, ...filled.items] } }];
  for (let { rest } = filled; rest.length > 0; ) {
    const next = fillColumns(rest, columns);
    pages.push({ name: `${name} ${pages.length + 1}`, drawing: { ...size, items: next.items } });
    rest = next.rest;
  }
  return pages;
}
