import type { Box } from '../../curves/geometry/bounds.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, wrapText } from '../drawing/text-width.ts';

/** A strip across a column that is not broken: a line of words, a row of a table. */
export interface TextRow {
  readonly height: number;
  /** Never the last in a column: a heading. */
  readonly withNext?: boolean;
  /** White only: left out at the top of a column. */
  readonly blank?: boolean;
  /** Drawn from the left top corner. */
  readonly draw: (left: number, top: number) => Item[];
}

const HEADING_MM = 4.4;
/** Type of the cover's text, mm. */
export const BODY_MM = 3.3;

/** First baseline below a row's top, parts of the type size. */
const BASELINE_SHARE = 0.95;

/** Empty space between two rows, mm high. */
export const blankRow = (height: number): TextRow => ({ height, blank: true, draw: () => [] });

export const headingRow = (text: string): TextRow => ({
  height: HEADING_MM * LINE_SPACING * 1.15,
  withNext: true,
  draw: (x, top) => [words(text, { x, y: top - HEADING_MM * BASELINE_SHARE }, HEADING_MM)],
});

const bodyRow = (indent: number, text: string, before = ''): TextRow => ({
  height: BODY_MM * LINE_SPACING,
  draw: (x, top) => {
    const y = top - BODY_MM * BASELINE_SHARE;
    const first = before === '' ? [] : [words(before, { x, y }, BODY_MM)];
    return [...first, words(text, { x: x + indent, y }, BODY_MM)];
  },
});

/** A paragraph broken to the column and kept together. */
export const paragraph = (text: string, width: number): TextRow[] => [
  ...keepTogether(wrapText(text, BODY_MM, width).map((line) => bodyRow(0, line))),
  blankRow(1),
];

const keepTogether = (rows: readonly TextRow[]): TextRow[] =>
  rows.map((row, i) => ({ ...row, withNext: i < rows.length - 1 }));

const NUMBER_INDENT_MM = 5;

/** Numbered steps, their numbers hanging. */
export const numberedSteps = (texts: readonly string[], width: number): TextRow[] =>
  texts.flatMap((text, i) => [
    ...keepTogether(
      wrapText(text, BODY_MM, width - NUMBER_INDENT_MM).map((line, j) =>
        bodyRow(NUMBER_INDENT_MM, line, j === 0 ? `${i + 1}.` : ''),
      ),
    ),
    blankRow(0.8),
  ]);

const CELL_GAP_MM = 4;
const HEAD_GAP_MM = 1.6;
const MIN_CELL_MM = 15;

/** A table set as narrow as its words, kept together; the last cell of a row may run to more lines. */
export function table(
  body: readonly (readonly string[])[],
  width: number,
  head?: readonly string[],
): TextRow[] {
  const rows = head ? [head, ...body] : body;
  const count = Math.max(...rows.map((row) => row.length));
  const lefts = [0];
  for (let i = 0; i < count; i++) {
    const widest = Math.max(...rows.map((row) => textWidth(row[i] ?? '', BODY_MM)));
    lefts.push((lefts.at(-1) ?? 0) + widest + CELL_GAP_MM);
  }
  const wide = Math.min(width, lefts.pop() ?? width);
  const set = rows.map((row) => tableRow(row, lefts, width));
  const [first, ...others] = set;
  return keepTogether(head && first ? [first, headRule(wide), ...others] : set);
}

function tableRow(row: readonly string[], lefts: readonly number[], width: number): TextRow {
  const last = Math.max(MIN_CELL_MM, width - (lefts.at(-1) ?? 0));
  const cells = row.map((text, i) => (i === lefts.length - 1 ? wrapText(text, BODY_MM, last) : [text]));
  const draw = (x: number, top: number): Item[] =>
    cells.flatMap((lines, i) =>
      lines.map((line, j) =>
        words(
          line,
          { x: x + (lefts[i] ?? 0), y: top - BODY_MM * (BASELINE_SHARE + LINE_SPACING * j) },
          BODY_MM,
        ),
      ),
    );
  return { height: BODY_MM * LINE_SPACING * Math.max(1, ...cells.map(({ length }) => length)), draw };
}

const headRule = (width: number): TextRow => ({
  height: HEAD_GAP_MM,
  draw: (x, top) => [
    polyline('rule', [
      { x, y: top - 0.5 },
      { x: x + width, y: top - 0.5 },
    ]),
  ],
});

/**
 * Rows set into columns, one after the other; what finds no room is handed back. A heading keeps its
 * rows, unless they are more than the tallest column holds.
 */
export function fillColumns(
  rows: readonly TextRow[],
  columns: readonly Box[],
): { items: Item[]; rest: TextRow[] } {
  const items: Item[] = [];
  const tallest = Math.max(...columns.map(({ bottom, top }) => top - bottom));
  let next = 0;
  for (const { left, bottom, top } of columns) {
    let y = top;
    for (let row = rows[next]; row; row = rows[++next]) {
      const fresh = y === top;
      if (fresh && row.blank) continue;
      const group = startsGroup(rows, next) ? groupHeight(rows, next) : row.height;
      const needed = group > tallest ? row.height : group;
      if (!fresh && y - needed < bottom) break;
      items.push(...row.draw(left, y));
      y -= row.height;
    }
  }
  return { items, rest: rows.slice(next) };
}

const startsGroup = (rows: readonly TextRow[], at: number): boolean => !rows[at - 1]?.withNext;

function groupHeight(rows: readonly TextRow[], at: number): number {
  let height = 0;
  for (let row = rows[at]; row; row = row.withNext ? rows[++at] : undefined) height += row.height;
  return height;
}
