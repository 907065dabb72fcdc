const MAX_QUOTED = 40;

/** In quotation marks, on one line, cut short if it is long. */
export function quoted(written: string): string {
  const line = [...written.replaceAll(/[\p{C}\s]+/gu, ' ').trim()];
  return `"${line.length > MAX_QUOTED ? `${line.slice(0, MAX_QUOTED).join('')}…` : line.join('')}"`;
}
