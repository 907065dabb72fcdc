/** `column` counts from 1. */
export interface CsvCell {
  readonly text: string;
  readonly column: number;
}

export type CsvSeparator = ',' | ';' | '\t';

/** A tab or a semicolon counts where most lines hold one: commas may then be decimal, and a title line decides nothing. */
export function detectSeparator(lines: readonly string[]): CsvSeparator {
  const most = (sign: CsvSeparator): boolean =>
    2 * lines.filter((line) => line.includes(sign)).length > lines.length;
  return most('\t') ? '\t' : most(';') ? ';' : ',';
}

/** RFC 4180, or the column of an open quote; but a quote inside a cell is an inch mark (28 3/4"), # starts a remark. */
export function splitCsvLine(
  line: string,
  separator: CsvSeparator,
): CsvCell[] | { readonly openQuote: number } {
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

function plainCell(line: string, from: number, separator: CsvSeparator) {
  const end = cellEnd(line, from, separator);
  return { text: line.slice(from, end).trim(), end };
}

function quotedCell(line: string, from: number): ReturnType<typeof plainCell> | undefined {
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

function cellEnd(line: string, from: number, separator: CsvSeparator): number {
  let at = from;
  while (at < line.length && line[at] !== separator && line[at] !== '#') at++;
  return at;
}
