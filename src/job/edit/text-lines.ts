/** Where the line of a place begins. */
export const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;

/** Where the line of a place ends, before its line break. */
export const lineEnd = (text: string, at: number): number => at + text.slice(at).search(/\r?\n|$/);

export const lineEnding = (text: string): string => (text.includes('\r\n') ? '\r\n' : '\n');

/** The indentation of a place; undefined where it is not the first on its line. */
export function indentBefore(text: string, at: number): string | undefined {
  const before = text.slice(lineStart(text, at), at);
  return before.trim() === '' ? before : undefined;
}

/** Where the comments right above a place begin; the start of its own line where there are none. */
export function startOfComments(text: string, at: number): number {
  let line = lineStart(text, at);
  while (line > 0) {
    const above = lineStart(text, line - 1);
    if (!/^\s*#/.test(text.slice(above, line))) break;
    line = above;
  }
  return line;
}

/**
 * Removes a range. A line that becomes empty goes, too. Comments in the range and behind it stay, on lines of their
 * own where nothing else is left on theirs.
 */
export function removeText(text: string, start: number, end: number): string {
  const indent = indentBefore(text, start);
  const [line, next] = [lineStart(text, start), lineEnd(text, end)];
  const behind = text.slice(end, next).trim();
  if (indent === undefined || !/^(?:#.*)?$/.test(behind)) return text.slice(0, start) + text.slice(end);
  const inside = [...text.slice(start, end).matchAll(/(?<=^|\s)#.*/gm)].map(([remark]) => remark.trim());
  const kept = [...inside, behind].filter((remark) => remark !== '');
  if (kept.length > 0) {
    return (
      text.slice(0, line) + kept.map((remark) => indent + remark).join(lineEnding(text)) + text.slice(next)
    );
  }
  return text.slice(0, line) + text.slice(next).replace(/^\r?\n/, '');
}
