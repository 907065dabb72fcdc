/** Longest piece of text repeated in a message: enough to find it, short enough to read. */
const MAX_QUOTED = 40;

/** What was written, in quotes, on one line and cut short if it is long. */
export function quoted(written: string): string {
  const line = [...written.replaceAll(/[\p{C}\s]+/gu, ' ').trim()];
  return `"${line.length > MAX_QUOTED ? `${line.slice(0, MAX_QUOTED).join('')}…` : line.join('')}"`;
}
