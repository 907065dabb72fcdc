import { isMap, isSeq, type ParsedNode, type YAMLMap, type YAMLSeq } from 'yaml';
import { nodeAt, replaceText } from './edit-job.ts';
import { indentBefore, lineEnd, lineEnding, lineStart, removeText, startOfComments } from './text-lines.ts';
import { type JobValue, toBlock, toFlow, toItem } from './yaml-text.ts';

type Collection = YAMLMap.Parsed | YAMLSeq.Parsed;
/** `stock.species` in two: the collection that holds the value, and its name or place there. */
interface Path {
  readonly parent: string;
  readonly last: string | number;
}

/**
 * A job's text with the value at `key` (`stock.species`, `edges.back[1]`, `ends.left`) replaced, or added where there is
 * none, with the keys above it. All else stays as typed: comments, order, spacing.
 */
export function setValue(text: string, key: string, value: JobValue): string {
  const node = nodeAt(text, key);
  const { parent, last } = splitKey(key);
  const holder = nodeAt(text, parent);
  if (node && !isEmpty(node)) return replaceNode(text, node, value, pairIn(holder, last));
  if (typeof last === 'number')
    return isSeq(holder) ? addItem(text, holder as YAMLSeq.Parsed, value) : setValue(text, parent, [value]);
  if (isMap(holder)) return addPair(text, holder as YAMLMap.Parsed, last, value);
  if (parent === '') return `${withFinalBreak(text)}${last}: ${toFlow(value)}${lineEnding(text)}`;
  return setValue(text, parent, { [last]: value });
}

/** The text without the value at `key`; a collection that has nothing else goes with it. */
export function removeValue(text: string, key: string): string {
  const { parent, last } = splitKey(key);
  const holder = nodeAt(text, parent);
  if (!isMap(holder) && !isSeq(holder)) return text;
  const collection = holder as Collection;
  const entries = entriesOf(text, collection);
  const index =
    typeof last === 'number'
      ? last
      : (collection as YAMLMap.Parsed).items.findIndex(({ key: name }) => String(name) === last);
  const entry = entries[index];
  if (!entry) return text;
  if (entries.length === 1 && parent !== '') return removeValue(text, parent);
  if (!collection.flow) return removeText(text, entry.start, entry.end);
  const next = entries[index + 1];
  const before = entries[index - 1];
  if (next) return text.slice(0, entry.start) + text.slice(next.start);
  return before
    ? text.slice(0, before.end) + text.slice(entry.end)
    : text.slice(0, entry.start) + text.slice(entry.end);
}

/** The text with one more item in the list at `key`, before the `index`-th; a missing list begins with it. */
export function insertItem(text: string, key: string, index: number, value: JobValue): string {
  const holder = nodeAt(text, key);
  if (!isSeq(holder)) return setValue(text, key, [value]);
  const list = holder as YAMLSeq.Parsed;
  const entry = entriesOf(text, list)[index];
  if (!entry) return addItem(text, list, value);
  if (list.flow) return `${text.slice(0, entry.start)}${toFlow(value)}, ${text.slice(entry.start)}`;
  const indent = indentBefore(text, entry.start) ?? '';
  // The comments above an item are about that one.
  const line =
    indentBefore(text, entry.start) === undefined ? entry.start : startOfComments(text, entry.start);
  const item = toItem(value, columnOf(text, entry.start) + 2, lineEnding(text));
  return `${text.slice(0, line)}${indent}- ${item}${lineEnding(text)}${text.slice(line)}`;
}

function splitKey(key: string): Path {
  const [, parent = '', name, index] = /^(.*?)(?:(?:^|\.)([^.[\]]+)|\[(\d+)\])$/.exec(key) ?? [];
  return { parent, last: name ?? Number(index) };
}

const isEmpty = (node: ParsedNode): boolean => node.range[0] === node.range[1];

function replaceNode(text: string, node: ParsedNode, value: JobValue, pair?: YamlPair): string {
  const [start, end] = [node.range[0], endOf(node)];
  const isBlock = (isMap(node) || isSeq(node)) && !(node as Collection).flow;
  if (!isBlock) return replaceText(text, start, end, toFlow(value));
  if (!pair || indentBefore(text, start) === undefined)
    return replaceText(text, start, end, toItem(value, columnOf(text, start), lineEnding(text)));
  // A collection on lines of its own goes behind the colon of its key.
  const colon = colonOf(text, pair);
  return `${text.slice(0, colon)} ${toFlow(value)}${text.slice(end)}`;
}

type YamlPair = YAMLMap.Parsed['items'][number];

const pairIn = (holder: ParsedNode | null, name: string | number): YamlPair | undefined =>
  isMap(holder) ? (holder as YAMLMap.Parsed).items.find(({ key }) => String(key) === name) : undefined;

const colonOf = (text: string, { key }: Pick<YamlPair, 'key'>): number => text.indexOf(':', key.range[1]) + 1;

function addPair(text: string, map: YAMLMap.Parsed, name: string, value: JobValue): string {
  const existing = pairIn(map, name);
  if (existing) {
    // A key without a value: the value goes behind its colon.
    const colon = colonOf(text, existing);
    return `${text.slice(0, colon)} ${toFlow(value)}${text.slice(colon)}`;
  }
  const entries = entriesOf(text, map);
  const last = entries.at(-1);
  if (map.flow) {
    const at = last?.end ?? map.range[0] + 1;
    return `${text.slice(0, at)}${last ? ', ' : ' '}${name}: ${toFlow(value)}${last ? '' : ' '}${text.slice(at)}`;
  }
  if (!last) return text;
  const indent = ' '.repeat(columnOf(text, map.range[0]));
  return addLines(text, last.end, toBlock(name, value, indent, lineEnding(text)));
}

function addItem(text: string, list: YAMLSeq.Parsed, value: JobValue): string {
  const last = entriesOf(text, list).at(-1);
  if (list.flow) {
    const at = last?.end ?? list.range[0] + 1;
    return `${text.slice(0, at)}${last ? ', ' : ''}${toFlow(value)}${text.slice(at)}`;
  }
  if (!last) return text;
  const indent = ' '.repeat(columnOf(text, last.start));
  return addLines(text, last.end, `${indent}- ${toItem(value, indent.length + 2, lineEnding(text))}`);
}

/** On lines of their own behind the line of a place. */
function addLines(text: string, at: number, lines: string): string {
  const end = lineEnd(text, at);
  return `${text.slice(0, end)}${lineEnding(text)}${lines}${text.slice(end)}`;
}

const columnOf = (text: string, at: number): number => at - lineStart(text, at);

const withFinalBreak = (text: string): string =>
  text === '' || text.endsWith('\n') ? text : `${text}${lineEnding(text)}`;

/** Where each pair or item of a collection begins (with its dash) and ends. */
function entriesOf(text: string, collection: Collection): { readonly start: number; readonly end: number }[] {
  if (isMap(collection))
    return (collection as YAMLMap.Parsed).items.map(({ key, value }) => ({
      start: key.range[0],
      end: value && !isEmpty(value) ? endOf(value) : colonOf(text, { key }),
    }));
  const { items, flow } = collection as YAMLSeq.Parsed;
  return items.map((item) => ({
    start: flow ? item.range[0] : dashBefore(text, item.range[0]),
    end: endOf(item),
  }));
}

/** Where a value's own text ends: the range of a collection with lines of its own reaches to the next key. */
function endOf(node: ParsedNode): number {
  if (!(isMap(node) || isSeq(node)) || (node as Collection).flow) return node.range[1];
  const last = node.items.at(-1);
  if (last === undefined) return node.range[1];
  if (isSeq(node)) return endOf(last as ParsedNode);
  const { key, value } = last as { key: ParsedNode; value: ParsedNode | null };
  return value && !isEmpty(value) ? endOf(value) : key.range[1] + 1;
}

/** The dash of an item: the nearest one before it that begins its line, or follows only other dashes. */
function dashBefore(text: string, at: number): number {
  for (let line = at; line > 0; line = lineStart(text, line - 1)) {
    const start = lineStart(text, line);
    const [found] = /^[\s-]*-(?=\s)/.exec(text.slice(start, Math.min(line, at))) ?? [];
    if (found !== undefined) return start + found.length - 1;
    line = start;
  }
  return at;
}

/** The value at `key` as typed; undefined where there is none. */
export function valueAt(text: string, key: string): JobValue | undefined {
  const node = nodeAt(text, key);
  return node && !isEmpty(node) ? (node.toJSON() as JobValue) : undefined;
}
