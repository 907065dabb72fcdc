import type { Box } from '../curves/curve.ts';
import { type Item, words } from './drawing.ts';
import { LEADING, textWidth, wrapText } from './type.ts';

/** A strip across a column that is not broken: a line of words, a row of a table. */
export interface Row {
  readonly height: number;
  /** Never the last in a column: a heading. */
  readonly withNext?: boolean;
  /** White only: left out at the top of a column. */
  readonly blank?: boolean;
  /** Drawn from the left top corner. */
  readonly draw: (left: number, top: number) => Item[];
}

const HEADING_MM = 4.4;
const BODY_MM = 3.3;

/** First baseline below a row's top, parts of the type size. */
const RISE = 0.95;

export const gap = (height: number): Row => ({ height, blank: true, draw: () => [] });

export const heading = (text: string): Row => ({
  height: HEADING_MM * LEADING * 1.15,
  withNext: true,
  draw: (x, top) => [words(text, { x, y: top - HEADING_MM * RISE }, HEADING_MM)],
});

const bodyRow = (indent: number, text: string, before = ''): Row => ({
  height: BODY_MM * LEADING,
  draw: (x, top) => {
    const y = top - BODY_MM * RISE;
    const first = before === '' ? [] : [words(before, { x, y }, BODY_MM)];
    return [...first, words(text, { x: x + indent, y }, BODY_MM)];
  },
});

/** A paragraph broken to the column; all but its last line stay with the next. */
export const paragraph = (text: string, width: number): Row[] => [
  ...wrapText(text, BODY_MM, width).map((line) => bodyRow(0, line)),
  gap(1),
];

const NUMBER_INDENT_MM = 5;

/** Numbered steps, their numbers hanging. */
export const steps = (texts: readonly string[], width: number): Row[] =>
  texts.flatMap((text, i) => [
    ...wrapText(text, BODY_MM, width - NUMBER_INDENT_MM).map((line, j) =>
      bodyRow(NUMBER_INDENT_MM, line, j === 0 ? `${i + 1}.` : ''),
    ),
    gap(0.8),
  ]);

const CELL_GAP_MM = 4;

/** A table set as narrow as its words; the first row is its head. */
export function table(rows: readonly (readonly string[])[], width: number): Row[] {
  const columns = Math.max(...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, i) =>
    Math.max(...rows.map((row) => textWidth(row[i] ?? '', BODY_MM))),
  );
  const lefts = widths.map((_, i) => widths.slice(0, i).reduce((sum, one) => sum + one + CELL_GAP_MM, 0));
  const last = width - (lefts.at(-1) ?? 0);
  return rows.flatMap((row) => {
    const lines = wrapText(row.at(-1) ?? '', BODY_MM, Math.max(last, 15));
    return [
      {
        height: BODY_MM * LEADING * Math.max(1, lines.length),
        draw: (x: number, top: number) =>
          row.flatMap((text, i) =>
            (i === columns - 1 ? lines : [text]).map((line, j) =>
              words(line, { x: x + (lefts[i] ?? 0), y: top - BODY_MM * (RISE + LEADING * j) }, BODY_MM),
            ),
          ),
      },
    ];
  });
}

/**
 * Rows set into columns, one after the other; what does not fit any more starts the next of the list.
 * A row taller than its column is set all the same.
 */
export function fillColumns(rows: readonly Row[], columns: readonly Box[]): { items: Item[]; rest: Row[] } {
  const items: Item[] = [];
  let next = 0;
  for (const { left, bottom, top } of columns) {
    let y = top;
    for (let first = true; next < rows.length; next++) {
      const row = rows[next];
      if (!row) break;
      if (!first && y - tied(rows, next) < bottom) break;
      if (first && row.blank) continue;
      items.push(...row.draw(left, y));
      y -= row.height;
      first = false;
    }
  }
  return { items, rest: rows.slice(next) };
}

/** The height of a row with all that must stay with it. */
function tied(rows: readonly Row[], at: number): number {
  const row = rows[at];
  if (!row) return 0;
  return row.height + (row.withNext ? tied(rows, at + 1) : 0);
}
