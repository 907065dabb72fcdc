/** One cell of a line, and the column (from 1) where what stands in it begins. */
export interface CsvCell {
  readonly text: string;
  readonly column: number;
}

/** A quote that is opened and not closed on its line, and where. */
export interface UnclosedQuote {
  readonly openQuote: number;
}

export type CsvSeparator = ',' | ';' | '\t';

/**
 * What parts the cells of a table: a tab or a semicolon where most of its lines hold one, so that commas can be what
 * they like, and a title above the table says nothing.
 */
export function detectSeparator(lines: readonly string[]): CsvSeparator {
  const most = (sign: CsvSeparator): boolean =>
    2 * lines.filter((line) => line.includes(sign)).length > lines.length;
  return most('\t') ? '\t' : most(';') ? ';' : ',';
}

/**
 * The cells of one line of comma-separated text, as spreadsheets write it (RFC 4180), with two liberties that
 * readings need: a quote inside a cell is an inch mark (28 3/4"), and # starts a remark.
 *
 * Written here because the usual readers refuse such a quote, or tell the line of a mistake but not its column.
 */
export function splitCsvLine(line: string, separator: CsvSeparator): CsvCell[] | UnclosedQuote {
  const cells: CsvCell[] = [];
  let at = 0;
  for (;;) {
    while (line[at] === ' ' || (line[at] === '\t' && separator !== '\t')) at++;
    const column = at + 1;
    const cell = line[at] === '"' ? quotedCell(line, at) : plainCell(line, at, separator);
    if (cell === undefined) return { openQuote: column };
    cells.push({ text: cell.text, column });
    at = cellEnd(line, cell.end, separator);
    if (line[at] !== separator) return cells;
    at++;
  }
}

interface ParsedCell {
  readonly text: string;
  readonly end: number;
}

function plainCell(line: string, from: number, separator: CsvSeparator): ParsedCell {
  const end = cellEnd(line, from, separator);
  return { text: line.slice(from, end).trim(), end };
}

function quotedCell(line: string, from: number): ParsedCell | undefined {
  let text = '';
  for (let at = from + 1; at < line.length; at++) {
    if (line[at] !== '"') text += line[at];
    else if (line[at + 1] === '"') {
      text += '"';
      at++;
    } else return { text: text.trim(), end: at + 1 };
  }
  return undefined;
}

/** Where a cell ends: at the separator, at a remark, or with the line. */
function cellEnd(line: string, from: number, separator: CsvSeparator): number {
  let at = from;
  while (at < line.length && line[at] !== separator && line[at] !== '#') at++;
  return at;
}
