import { isMap, isScalar, isSeq, Lexer, type ParsedNode, Parser } from 'yaml';
import { parseLength } from '../../units/parse-length.ts';
import type { Unit } from '../../units/unit.ts';
import { composeDocuments } from '../parse/read-yaml.ts';

/** A length of a job to replace. */
export interface Edit {
  /** Where the length stands: `edges.back[1].apex[0]`. */
  readonly key: string;
  /** As a person types it; a bare number is in the job’s unit. */
  readonly typed: string;
}

/**
 * The text of a job with some of its lengths replaced. All else stays: comments, order, spacing. A comment behind a
 * length keeps its column where there is room.
 */
export function editJob(text: string, edits: readonly Edit[]): string {
  const spots = edits.map(({ key, typed }) => {
    const node = nodeAt(text, key);
    if (!isScalar(node)) throw new Error(`the job has no value at "${key}"`);
    return { start: node.range[0], end: node.range[1], typed: toYamlScalar(typed) };
  });
  return spots
    .toSorted((a, b) => b.start - a.start)
    .reduce((now, { start, end, typed }) => replaceText(now, start, end, typed), text);
}

/** A length as typed, with its unit added where a bare number would be read in the job's own. */
export function withJobUnit(typed: string, typedIn: Unit, job: Unit): string {
  const plain = typed.trim();
  return parseLength(plain, typedIn) === parseLength(plain, job) ? plain : `${plain} ${typedIn}`;
}

/** A drag edits the same text again and again, so the last parse is kept. */
let lastParsed: { readonly text: string; readonly root: ParsedNode | null } | undefined;

function parsedRoot(text: string): ParsedNode | null {
  if (lastParsed?.text !== text) lastParsed = { text, root: parseRoot(text) };
  return lastParsed.root;
}

function parseRoot(text: string): ParsedNode | null {
  const parser = new Parser();
  const tokens = [...new Lexer().lex(text)].flatMap((lexeme) => [...parser.next(lexeme)]);
  return composeDocuments([...tokens, ...parser.end()], text)[0]?.contents ?? null;
}

export function nodeAt(text: string, key: string): ParsedNode | null {
  let node = parsedRoot(text);
  const steps = [...key.matchAll(/([^.[\]]+)|\[(\d+)\]/g)];
  for (const [i, [, name, index]] of steps.entries()) {
    if (name !== undefined) node = isMap(node) ? (node.get(name, true) as ParsedNode) : null;
    else if (steps[i + 1]?.[2] === undefined || !isSinglePoint(node)) node = itemOf(node, Number(index));
  }
  return node;
}

/** One point may replace a list of points: it is then the list's first item. */
export const isSinglePoint = (node: ParsedNode | null): boolean => isSeq(node) && !node.items.some(isSeq);

const itemOf = (node: ParsedNode | null, index: number): ParsedNode | null =>
  isSeq(node) ? ((node.items[index] as ParsedNode | undefined) ?? null) : null;

/** What YAML reads as the text itself; anything else is put in quotes. */
const PLAIN = /^(?:[\d.]|[-+](?=[\d.]))[\w\s./'"°-]*$/;
export const toYamlScalar = (typed: string): string => (PLAIN.test(typed) ? typed : JSON.stringify(typed));

/** Replaces a range of the text; a comment behind it keeps its column where there is room. */
export function replaceText(text: string, start: number, end: number, typed: string): string {
  const rest = text.slice(end);
  const remark = /^([^\n#"']*?)( +)#/.exec(rest);
  if (!remark) return text.slice(0, start) + typed + rest;
  const [whole, between = '', spaces = ''] = remark;
  const room = Math.max(1, spaces.length - (typed.length - (end - start)));
  return `${text.slice(0, start)}${typed}${between}${' '.repeat(room)}${rest.slice(whole.length - 1)}`;
}
