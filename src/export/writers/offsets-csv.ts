import { present } from '../../units/lists.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { type OffsetsTable, WOOD_WORDS } from '../tables/offsets-table.ts';

/** Spreadsheets take a file for UTF-8 only where it begins with this; plain ASCII is the same either way. */
const BYTE_ORDER_MARK = '\uFEFF';

/** RFC 4180. A spreadsheet makes 4 March of 3/4 and a formula of a leading minus: hence the units and "below". */
export function offsetsCsv(rule: Rule, tables: readonly OffsetsTable[]): string {
  const { unit } = rule;
  const isStepped = tables.some(({ rows }) => rows.some(({ side }) => side));
  const isCut = tables.some(({ rows }) => rows.some(({ wood }) => wood));
  const rows = tables.flatMap(({ name, rows }) =>
    rows.map(({ station, offset, side = '', wood }) => [
      textCell(name),
      decimal(station, rule),
      decimal(offset, rule),
      ruleWords(station, rule),
      ruleWords(offset, rule),
      ...(isStepped ? [side] : []),
      ...(isCut ? [wood ? WOOD_WORDS[wood] : ''] : []),
    ]),
  );
  const head = ['edge', `station_${unit}`, `offset_${unit}`, 'station_on_rule', 'offset_on_rule'];
  if (isStepped) head.push('side_of_shoulder');
  if (isCut) head.push('wood');
  const text = [head, ...rows].map((row) => `${row.map(quoteCell).join(',')}\r\n`).join('');
  return /^\p{ASCII}*$/u.test(text) ? text : BYTE_ORDER_MARK + text;
}

function ruleWords(mm: number, rule: Rule): string {
  const { text, hair } = readOnRule(mm, rule);
  const isBelow = text.startsWith('-');
  return present(text.replace('-', ''), rule.unit, hair !== '' && hair, isBelow && 'below').join(' ');
}

/** Seven places, never in exponent notation: rounding moves nothing by more than 2e-6 mm. */
const decimal = (mm: number, { unit }: Rule): string =>
  (unit === 'in' ? mm / MM_PER_INCH : mm)
    .toFixed(7)
    .replace(/\.?0+$/, '')
    .replace(/^-0$/, '0');

/** A name that a spreadsheet would take for a formula, a number or a date stays a name. */
const textCell = (name: string): string => (/^[\p{L}_]/u.test(name) ? name : `edge ${name}`);

const quoteCell = (cell: string): string =>
  /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
