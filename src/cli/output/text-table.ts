interface TableLayout {
  readonly align?: 'left' | 'right';
  readonly gap?: number;
  readonly firstWidth?: number;
}

/** Rows of cells as aligned columns of characters. */
export function textTable(
  rows: readonly (readonly string[])[],
  { align = 'right', gap = 3, firstWidth = 0 }: TableLayout = {},
): string {
  const widths = (rows[0] ?? []).map((_, i) =>
    Math.max(i === 0 ? firstWidth : 0, ...rows.map((row) => row[i]?.length ?? 0)),
  );
  const pad = (cell: string, i: number): string =>
    i === 0 || align === 'left' ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0);
  return rows.map((row) => row.map(pad).join(' '.repeat(gap)).trimEnd()).join('\n');
}
