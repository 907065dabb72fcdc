import { isSeq, type ParsedNode, type YAMLSeq } from 'yaml';
import { firstOf, itemAt } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { isSinglePoint, nodeAt, replaceText, toYamlScalar } from './edit-job.ts';
import { indentBefore, lineEnd, lineEnding, lineStart, removeText, startOfComments } from './text-lines.ts';

type YamlList = YAMLSeq.Parsed;

/**
 * A job with one more nail, as the `index`-th of those at `key` (`edges.back[1].through`), as a person would type it:
 * the list keeps its form (one point, or a list on one line, with commas or with dashes), and no comment is lost.
 */
export function insertNail(
  text: string,
  key: string,
  index: number,
  typed: readonly [station: string, offset: string],
): string {
  const list = findNailList(text, key);
  if (isSinglePoint(list)) return insertNail(wrapInList(text, list), key, index, typed);
  const items = list.items as YamlList[];
  const point = formatPointLike(text, firstOf(items), typed.map(toYamlScalar));
  return items[index] ? insertBefore(text, list, index, point) : appendNail(text, list, point);
}

/** The text without the `index`-th of the nails at `key`. @throws Fault where it is the only one */
export function removeNail(text: string, key: string, index: number): string {
  const list = findNailList(text, key);
  if (isSinglePoint(list) || list.items.length < 2) {
    const wording = 'the curve needs at least one nail or point. Add another one before you remove this one.';
    throw new Fault('job.only-nail', wording, key);
  }
  const item = list.items[index] as YamlList | undefined;
  if (!item) throw new Error(`the job has no nail ${index} at "${key}"`);
  return list.flow
    ? removeFlowItem(text, list, index)
    : removeText(text, findDash(text, list, item), endOfList(item));
}

function findNailList(text: string, key: string): YamlList {
  const node = nodeAt(text, key);
  if (!isSeq(node)) throw new Error(`the job has no nails at "${key}"`);
  return node as YamlList;
}

/** Where a list's last value ends: the range of a list with dashes reaches to the next key. */
function endOfList(list: YamlList): number {
  const last = list.items.at(-1) as ParsedNode | undefined;
  return list.flow || !last ? list.range[1] : isSeq(last) ? endOfList(last as YamlList) : last.range[1];
}

function wrapInList(text: string, point: YamlList): string {
  const [start, end] = [point.range[0], endOfList(point)];
  const alone = text.slice(start, end);
  if (point.flow) return replaceText(text, start, end, `[${alone}]`);
  return `${text.slice(0, start)}- ${alone.replaceAll('\n', '\n  ')}${text.slice(end)}`;
}

/** A point spaced inside its brackets as another is. */
function formatPointLike(text: string, other: YamlList, [station, offset]: readonly string[]): string {
  const [first, second] = other.items as ParsedNode[];
  const plain = `[${station}, ${offset}]`;
  if (!other.flow || !first || !second) return plain;
  const open = text.slice(other.range[0], first.range[0]);
  const comma = text.slice(first.range[1], second.range[0]);
  const close = text.slice(second.range[1], other.range[1]);
  return `${open}${comma}${close}`.includes('\n') ? plain : `${open}${station}${comma}${offset}${close}`;
}

function insertBefore(text: string, list: YamlList, index: number, point: string): string {
  const next = list.items[index] as YamlList;
  const at = list.flow ? next.range[0] : findDash(text, list, next);
  const indent = indentBefore(text, at);
  if (indent === undefined) return replaceText(text, at, at, `${point}${commaBeside(text, list, index)}`);
  // The comments above the next nail are about that one.
  const line = startOfComments(text, at);
  const typed = list.flow ? `${point},` : `- ${point}`;
  return `${text.slice(0, line)}${indent}${typed}${lineEnding(text)}${text.slice(line)}`;
}

function appendNail(text: string, list: YamlList, point: string): string {
  const last = list.items.at(-1) as YamlList;
  const indent = indentBefore(text, list.flow ? last.range[0] : findDash(text, list, last));
  const end = endOfList(last);
  if (indent === undefined)
    return replaceText(text, end, end, `${commaBeside(text, list, list.items.length - 1)}${point}`);
  const line = lineEnd(text, end);
  const fresh = `${lineEnding(text)}${indent}${list.flow ? '' : '- '}${point}`;
  if (!list.flow) return `${text.slice(0, line)}${fresh}${text.slice(line)}`;
  // The bracket that closes the list moves down with the new last nail.
  if (line >= list.range[1]) return `${text.slice(0, end)},${fresh}${text.slice(end)}`;
  const comma = findCommaAfter(text, end);
  const kept =
    comma === undefined ? `,${text.slice(end, line)}${fresh}` : `${text.slice(end, line)}${fresh},`;
  return `${text.slice(0, end)}${kept}${text.slice(line)}`;
}

/** The comma and its spaces as they are beside an item of a list on one line. */
function commaBeside(text: string, { items }: YamlList, index: number): string {
  const between = (a: number): string | undefined => {
    const [one, other] = [items[a], items[a + 1]] as (YamlList | undefined)[];
    return one && other && text.slice(one.range[1], other.range[0]);
  };
  const found = [between(index - 1), between(index)].find((comma) => comma && !/[\n#]/.test(comma));
  return found ?? ', ';
}

/** Where the comma behind an item ends, if there is one: it may follow a comment, on the next line. */
function findCommaAfter(text: string, at: number): number | undefined {
  const found = /^(?:\s|#[^\n]*\n)*,/.exec(text.slice(at));
  return found ? at + found[0].length : undefined;
}

/** One comma goes with the item, but no comment between the two. */
function removeFlowItem(text: string, list: YamlList, index: number): string {
  const items = list.items as YamlList[];
  const { range } = itemAt(items, index);
  const next = items[index + 1];
  const comma = findCommaAfter(text, range[1]);
  if (comma !== undefined) {
    const remark = text.slice(range[1], comma - 1);
    if (remark.includes('#')) return text.slice(0, range[0]) + remark + text.slice(comma);
    const isPlain = next && indentBefore(text, range[0]) === undefined;
    const end = isPlain && text.slice(comma, next.range[0]).trim() === '' ? next.range[0] : comma;
    return removeText(text, range[0], end);
  }
  const end = itemAt(items, index - 1).range[1];
  const between = text.slice(end, range[0]);
  // The bracket that closes the list moves up again.
  const closesBehind = !between.includes('#') && text.slice(range[1]).trimStart().startsWith(']');
  if (closesBehind && lineEnd(text, range[1]) >= list.range[1]) return removeText(text, end, range[1]);
  const rest = removeText(text, range[0], range[1]);
  const before = findCommaAfter(rest, end) ?? end;
  const remark = rest.slice(end, before - 1);
  return rest.slice(0, end) + (remark.includes('#') ? remark : '') + rest.slice(before);
}

/** All dashes of a list are in one column. */
function findDash(text: string, list: YamlList, item: YamlList): number {
  const column = list.range[0] - lineStart(text, list.range[0]);
  for (let line = lineStart(text, item.range[0]); line > list.range[0]; line = lineStart(text, line - 1)) {
    if (/^\s*-$/.test(text.slice(line, line + column + 1))) return line + column;
  }
  return list.range[0];
}
