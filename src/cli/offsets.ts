import { Command } from 'commander';
import { type OffsetsTable, offsetsCsv, offsetsTable, USUAL_ROWS } from '../export/offsets-table.ts';
import { chordLine, REFERENCE_LINE, stationSpacing, stationsEvery } from '../part/offsets.ts';
import type { Part, PartEdge } from '../part/part.ts';
import { Fault, type Warning } from '../units/fault.ts';
import { type Rule, showOnRule } from '../units/rule.ts';
import { readGiven, takesJob, warn } from './job-input.ts';
import { printJson } from './json.ts';
import { lengthAt } from './option.ts';
import { columns } from './table.ts';

interface OffsetsOptions {
  readonly edge?: string;
  readonly every?: string;
  readonly at?: string;
  readonly from: string;
  readonly csv?: boolean;
  readonly json?: boolean;
}

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
      if (options.json)
        printJson('offsets', part, { edges: tables.map(asJson) }, [...part.warnings, ...warnings]);
      else console.log(options.csv ? offsetsCsv(tables) : text(part, tables, options));
    });

/** What a program is told of a table. */
const asJson = ({ name, rows }: OffsetsTable): object => ({
  name,
  rows: rows.map(({ station, offset, shown }) => ({ station, offset, shown })),
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

function tableOf(edge: PartEdge, rule: Rule, options: OffsetsOptions, warnings: Warning[]): OffsetsTable {
  const stations = stationsOf(edge, rule, options);
  const table = offsetsTable(edge, stations, rule, baseOf(edge, options.from));
  const beyond = stations.find((station) => !table.rows.some((row) => row.station === station));
  if (beyond !== undefined)
    throw new Fault(
      'command.no-such-station',
      `--at: the edge "${edge.name}" has no station ${showOnRule(beyond, rule)}. Name stations between its ends.`,
    );
  for (const { station, passes } of table.rows.filter((row) => row.passes > 1))
    warnings.push({
      code: 'offsets.doubles-back',
      message: `the edge "${edge.name}" passes station ${showOnRule(station, rule)} ${passes} times; the table gives the first.`,
    });
  return table;
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
    return options.at.split(',').map((typed) => lengthAt('--at', typed, rule.unit));
  }
  const every =
    options.every === undefined
      ? stationSpacing(to - from, rule.unit, USUAL_ROWS)
      : lengthAt('--every', options.every, rule.unit, 'positive');
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

function text(part: Part, tables: readonly OffsetsTable[], { from }: OffsetsOptions): string {
  const { unit } = part.rule;
  const line = from === 'chord' ? "the edge's chord" : 'the reference line';
  const blocks = tables.map(({ name, rows }) => {
    const body = rows.map(({ station, shown }) => [`  ${showOnRule(station, part.rule)}`, shown]);
    return `${name}\n${columns([['  station', 'offset'], ...body])}`;
  });
  return `${part.name}: stations along ${line}, offsets square off it, ${unit}\n\n${blocks.join('\n\n')}`;
}
