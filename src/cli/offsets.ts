import { Command } from 'commander';
import { chordLine, offsetsAt, REFERENCE_LINE, stationSpacing, stationsEvery } from '../part/offsets.ts';
import type { Part, PartEdge } from '../part/part.ts';
import { Fault, type Warning } from '../units/fault.ts';
import { parseLength } from '../units/length.ts';
import { type Rule, showOnRule } from '../units/rule.ts';
import { readGiven, takesJob, warn } from './job-input.ts';
import { printJson } from './json.ts';
import { columns } from './table.ts';

interface OffsetsOptions {
  readonly edge?: string;
  readonly every?: string;
  readonly at?: string;
  readonly from: string;
  readonly csv?: boolean;
  readonly json?: boolean;
}

interface Row {
  readonly station: number;
  readonly offset: number;
  readonly shown: string;
}

interface Table {
  readonly name: string;
  readonly rows: readonly Row[];
}

/** Without --every or --at a table has about this many rows: a page of layout, not a list. */
const ROWS = 16;
/** The longest table, so that a slip of the decimal point gives a message and not a flood. */
const MAX_ROWS = 10_000;

/** `fairlath offsets JOB`: the table of offsets for laying out with a rule. */
export const offsetsCommand = (): Command =>
  takesJob(new Command('offsets'))
    .description('the table of offsets: how far the line lies off the reference line, station by station')
    .option('--edge <name>', 'this edge only')
    .option('--every <length>', 'a station at each whole multiple of this')
    .option('--at <stations>', 'these stations only: 6, 12, 18 1/2')
    .option(
      '--from <line>',
      'stations and offsets from the reference line, or from the edge’s own chord',
      'reference',
    )
    .option('--csv', 'comma-separated, for a spreadsheet')
    .addHelpText(
      'after',
      `
Examples:
  $ fairlath offsets samples/hall-bench-leg.yaml --every 2
  $ fairlath offsets samples/hall-bench-leg.yaml --edge back --at "6, 12, 18 1/2"
  $ fairlath offsets --curve arc --chord 600 --rise 75 --units mm --from chord --csv
`,
    )
    .action((file: string | undefined, options: OffsetsOptions) => {
      const { part } = readGiven(file, { ...options });
      const warnings: Warning[] = [];
      const tables = edgesOf(part, options).map((edge) => tableOf(edge, part.rule, options, warnings));
      warn({ ...part, warnings: [...part.warnings, ...warnings] });
      if (options.json) printJson('offsets', part, { edges: tables }, [...part.warnings, ...warnings]);
      else console.log(options.csv ? csv(tables) : text(part, tables, options));
    });

function edgesOf(part: Part, { edge }: OffsetsOptions): readonly PartEdge[] {
  if (edge === undefined) return part.edges;
  const found = part.edges.filter(({ name }) => name === edge);
  if (found.length === 0) {
    const names = part.edges.map(({ name }) => `"${name}"`).join(' and ');
    throw new Fault('command.no-such-edge', `--edge: there is no edge "${edge}". The part has ${names}.`);
  }
  return found;
}

function tableOf(edge: PartEdge, rule: Rule, options: OffsetsOptions, warnings: Warning[]): Table {
  const base = baseOf(edge, options.from);
  const rows = stationsOf(edge, rule, options).map((station): Row => {
    const offsets = offsetsAt(edge, station, base);
    const [offset] = offsets;
    if (offset === undefined)
      throw new Fault(
        'command.no-such-station',
        `--at: the edge "${edge.name}" has no station ${showOnRule(station, rule)}. Name stations between its ends.`,
      );
    if (offsets.length > 1)
      warnings.push({
        code: 'offsets.doubles-back',
        message: `the edge "${edge.name}" passes station ${showOnRule(station, rule)} ${offsets.length} times; the table gives the first.`,
      });
    return { station, offset, shown: showOnRule(offset, rule) };
  });
  return { name: edge.name, rows };
}

function baseOf(edge: PartEdge, from: string): typeof REFERENCE_LINE {
  if (from === 'reference') return REFERENCE_LINE;
  if (from === 'chord') return chordLine(edge);
  throw new Fault('command.from', `--from: "${from}" is unknown. Write reference or chord.`);
}

function stationsOf(edge: PartEdge, rule: Rule, options: OffsetsOptions): number[] {
  const [from, to] = reachOf(edge, options.from);
  if (options.at !== undefined) {
    if (options.every !== undefined)
      throw new Fault('command.at-or-every', '--at and --every exclude each other. Keep one.');
    return options.at.split(',').map((typed) => lengthOf('--at', typed, rule));
  }
  const every =
    options.every === undefined
      ? stationSpacing(to - from, rule.unit, ROWS)
      : lengthOf('--every', options.every, rule, 'positive');
  if ((to - from) / every > MAX_ROWS)
    throw new Fault(
      'command.too-many-rows',
      `--every: that makes more than ${MAX_ROWS} rows. Take stations farther apart.`,
    );
  return stationsEvery(from, to, every);
}

/** The stations of an edge's ends: its chord runs from 0. */
function reachOf(edge: PartEdge, from: string): [number, number] {
  const [start, end] = [edge.runs[0]!.from, edge.runs.at(-1)!.to];
  return from === 'chord' ? [0, Math.hypot(end.x - start.x, end.y - start.y)] : [start.x, end.x];
}

function lengthOf(option: string, typed: string, rule: Rule, sign: 'any' | 'positive' = 'any'): number {
  try {
    return parseLength(typed, rule.unit, sign);
  } catch (error) {
    throw error instanceof Fault ? error.at(option) : error;
  }
}

function text(part: Part, tables: readonly Table[], { from }: OffsetsOptions): string {
  const { unit } = part.rule;
  const line = from === 'chord' ? "the edge's chord" : 'the reference line';
  const blocks = tables.map(({ name, rows }) => {
    const body = rows.map(({ station, shown }) => [`  ${showOnRule(station, part.rule)}`, shown]);
    return `${name}\n${columns([['  station', 'offset'], ...body])}`;
  });
  return `${part.name}: stations along ${line}, offsets square off it, ${unit}\n\n${blocks.join('\n\n')}`;
}

/** Numbers are whole and plain so that any spreadsheet reads them; the last column is for the rule. */
function csv(tables: readonly Table[]): string {
  const quote = (cell: string): string => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
  const rows = tables.flatMap(({ name, rows }) =>
    rows.map(({ station, offset, shown }) =>
      [quote(name), plain(station), plain(offset), quote(shown)].join(','),
    ),
  );
  return ['edge,station_mm,offset_mm,shown', ...rows].join('\n');
}

/** Millimetres to a nanometre, never in exponent notation. */
const plain = (mm: number): string => String(Number(mm.toFixed(6)) + 0);
