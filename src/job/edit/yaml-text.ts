/** A value of a job: as a person types it, a list, or a mapping. */
export type JobValue = string | readonly JobValue[] | { readonly [name: string]: JobValue };

/** What YAML reads as the text itself, also inside brackets; anything else is put in quotes. */
const PLAIN = /^(?:[\d.]|[-+](?=[\d.])|[A-Za-z])[\w\s./'"°-]*$/;

const toScalar = (typed: string): string =>
  PLAIN.test(typed) && typed.trim() === typed && !typed.includes('\n') ? typed : JSON.stringify(typed);

/** On one line: `[12, 3 1/4]`, `{ miter: 6, bevel: 4 }`. */
export function toFlow(value: JobValue): string {
  if (typeof value === 'string') return toScalar(value);
  if (isList(value)) return `[${value.map(toFlow).join(', ')}]`;
  const pairs = Object.entries(value).map(([name, held]) => `${name}: ${toFlow(held)}`);
  return pairs.length === 0 ? '{}' : `{ ${pairs.join(', ')} }`;
}

/** Behind a dash: a mapping has each further pair on a line of its own, in the column of the first. */
export function toItem(value: JobValue, column: number, lineBreak: string): string {
  if (typeof value === 'string' || isList(value)) return toFlow(value);
  const pairs = Object.entries(value).map(([name, held]) => `${name}: ${toFlow(held)}`);
  return pairs.length === 0 ? '{}' : pairs.join(lineBreak + ' '.repeat(column));
}

/** A pair on lines of its own: what it holds is one level deeper, each pair or item on its line. */
export function toBlock(name: string, value: JobValue, indent: string, lineBreak: string): string {
  const deeper = `${indent}  `;
  if (typeof value !== 'string' && isList(value) && value.some((item) => typeof item !== 'string'))
    return [
      `${indent}${name}:`,
      ...value.map((item) => `${deeper}- ${toItem(item, deeper.length + 2, lineBreak)}`),
    ].join(lineBreak);
  if (typeof value === 'string' || isList(value) || indent !== '')
    return `${indent}${name}: ${toFlow(value)}`;
  const pairs = Object.entries(value).map(([inner, held]) => toBlock(inner, held, deeper, lineBreak));
  return [`${indent}${name}:`, ...pairs].join(lineBreak);
}

const isList = (value: JobValue): value is readonly JobValue[] => Array.isArray(value);
