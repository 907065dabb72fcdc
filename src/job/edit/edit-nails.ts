import { isSeq, type ParsedNode, type YAMLSeq } from 'yaml';
import { Fault } from '../../units/fault.ts';
import { isOnePoint, nodeAt, plainScalar, written } from './edit-job.ts';
import { eolOf, indentOf, lineEnd, lineStart, remarksAbove, without } from './text-lines.ts';

/*
 * Nails set and taken out in the text of a job, as a person would type it: the list keeps the form it has (one
 * point alone, a list on one line, a list over lines with commas or with dashes), and no remark is lost.
 */

/** A list as the YAML library reads it. */
type List = YAMLSeq.Parsed;

/**
 * The text with one more nail, as the `index`-th of those at `key`.
 *
 * @param text a job that parseJob reads
 * @param key where the nails stand: `edges.back[1].through`
 * @param typed station and offset as a person types them; bare numbers are in the job's unit
 * @throws Error for a key that holds no nails: the caller made it up
 */
export function withNail(
  text: string,
  key: string,
  index: number,
  typed: readonly [station: string, offset: string],
): string {
  const list = nailsAt(text, key);
  if (isOnePoint(list)) return withNail(inList(text, list), key, index, typed);
  const items = list.items as List[];
  const point = pointLike(text, items[0]!, typed.map(plainScalar));
  return items[index] ? before(text, list, index, point) : behind(text, list, point);
}

/**
 * The text without the `index`-th of the nails at `key`.
 *
 * @throws Fault where it is the only one: a run needs one to bend over
 */
export function withoutNail(text: string, key: string, index: number): string {
  const list = nailsAt(text, key);
  if (isOnePoint(list) || list.items.length < 2) {
    const wording =
      'the only one of its run cannot be taken out, for the line bends over it. Set another first.';
    throw new Fault('job.only-nail', wording, key);
  }
  const item = list.items[index] as List | undefined;
  if (!item) throw new Error(`the job has no nail ${index} at "${key}"`);
  return list.flow ? outOfCommas(text, list, index) : without(text, dashOf(text, list, item), endOf(item));
}

function nailsAt(text: string, key: string): List {
  const node = nodeAt(text, key);
  if (!isSeq(node)) throw new Error(`the job has no nails at "${key}"`);
  return node as List;
}

/** Where a list's last value ends: one with dashes is read as far as the next key. */
function endOf(list: List): number {
  const last = list.items.at(-1) as ParsedNode | undefined;
  return list.flow || !last ? list.range[1] : isSeq(last) ? endOf(last as List) : last.range[1];
}

/** One point alone, put in a list of its own. */
function inList(text: string, point: List): string {
  const [start, end] = [point.range[0], endOf(point)];
  const alone = text.slice(start, end);
  if (point.flow) return written(text, start, end, `[${alone}]`);
  // One dash more in front, and what follows goes in by as much.
  return `${text.slice(0, start)}- ${alone.replaceAll('\n', '\n  ')}${text.slice(end)}`;
}

/** A point with white inside its brackets where another has it. */
function pointLike(text: string, other: List, [station, offset]: readonly string[]): string {
  const [first, second] = other.items as ParsedNode[];
  const plain = `[${station}, ${offset}]`;
  if (!other.flow || !first || !second) return plain;
  const white = (from: number, to: number): string => text.slice(from, to);
  const [open, comma, close] = [
    white(other.range[0], first.range[0]),
    white(first.range[1], second.range[0]),
    white(second.range[1], other.range[1]),
  ];
  return `${open}${comma}${close}`.includes('\n') ? plain : `${open}${station}${comma}${offset}${close}`;
}

function before(text: string, list: List, index: number, point: string): string {
  const next = list.items[index] as List;
  const at = list.flow ? next.range[0] : dashOf(text, list, next);
  const indent = indentOf(text, at);
  if (indent === undefined) return written(text, at, at, `${point}${commaNear(text, list, index)}`);
  // Above the remarks that stand over the next one, for they are about that.
  const line = remarksAbove(text, at);
  const typed = list.flow ? `${point},` : `- ${point}`;
  return `${text.slice(0, line)}${indent}${typed}${eolOf(text)}${text.slice(line)}`;
}

function behind(text: string, list: List, point: string): string {
  const last = list.items.at(-1) as List;
  const indent = indentOf(text, list.flow ? last.range[0] : dashOf(text, list, last));
  const end = endOf(last);
  if (indent === undefined) {
    return written(text, end, end, `${commaNear(text, list, list.items.length - 1)}${point}`);
  }
  const line = lineEnd(text, end);
  const fresh = `${eolOf(text)}${indent}${list.flow ? '' : '- '}${point}`;
  if (!list.flow) return `${text.slice(0, line)}${fresh}${text.slice(line)}`;
  // The bracket that closes the list goes down with the new last one.
  if (line >= list.range[1]) return `${text.slice(0, end)},${fresh}${text.slice(end)}`;
  const comma = commaAfter(text, end);
  const kept =
    comma === undefined ? `,${text.slice(end, line)}${fresh}` : `${text.slice(end, line)}${fresh},`;
  return `${text.slice(0, end)}${kept}${text.slice(line)}`;
}

/** The comma with its white, as it stands beside an item of a list on one line. */
function commaNear(text: string, { items }: List, index: number): string {
  const between = (a: number): string | undefined => {
    const [one, other] = [items[a], items[a + 1]] as (List | undefined)[];
    return one && other && text.slice(one.range[1], other.range[0]);
  };
  const found = [between(index - 1), between(index)].find((comma) => comma && !/[\n#]/.test(comma));
  return found ?? ', ';
}

/** Where the comma behind an item ends, if one stands there: it may come after a remark, on the next line. */
function commaAfter(text: string, at: number): number | undefined {
  const found = /^(?:\s|#[^\n]*\n)*,/.exec(text.slice(at));
  return found ? at + found[0].length : undefined;
}

/** A list with commas without one of its items: one comma goes with it, but no remark between the two. */
function outOfCommas(text: string, list: List, index: number): string {
  const [last, { range }, next] = [index - 1, index, index + 1].map((i) => list.items[i]) as [
    List | undefined,
    List,
    List | undefined,
  ];
  const comma = commaAfter(text, range[1]);
  if (comma !== undefined) {
    const remark = text.slice(range[1], comma - 1);
    if (remark.includes('#')) return text.slice(0, range[0]) + remark + text.slice(comma);
    const isPlain = next && indentOf(text, range[0]) === undefined;
    const end = isPlain && text.slice(comma, next.range[0]).trim() === '' ? next.range[0] : comma;
    return without(text, range[0], end);
  }
  const end = last!.range[1];
  const between = text.slice(end, range[0]);
  // The bracket that closes the list comes up again.
  const closesBehind = !between.includes('#') && text.slice(range[1]).trimStart().startsWith(']');
  if (closesBehind && lineEnd(text, range[1]) >= list.range[1]) return without(text, end, range[1]);
  const rest = without(text, range[0], range[1]);
  const before = commaAfter(rest, end) ?? end;
  const remark = rest.slice(end, before - 1);
  return rest.slice(0, end) + (remark.includes('#') ? remark : '') + rest.slice(before);
}

/** The dash of an item: all of a list stand in one column. */
function dashOf(text: string, list: List, item: List): number {
  const column = list.range[0] - lineStart(text, list.range[0]);
  for (let line = lineStart(text, item.range[0]); line > list.range[0]; line = lineStart(text, line - 1)) {
    if (/^\s*-$/.test(text.slice(line, line + column + 1))) return line + column;
  }
  return list.range[0];
}
