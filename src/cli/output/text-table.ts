/** Rows of cells as aligned columns, three spaces between; the first column left, the others right. */
export function formatColumns(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)));
  return rows
    .map((row) =>
      row
        .map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
        .join('   ')
        .trimEnd(),
    )
    .join('\n');
}
