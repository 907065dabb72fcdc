import { addCutEnds, type OffsetsTable, offsetsTable, rowNote } from '../../export/tables/offsets-table.ts';
import { offsetsCsv } from '../../export/writers/offsets-csv.ts';
import { cutEnds } from '../../part/ends/cut-ends.ts';
import { assertFewStations, type BaseLine } from '../../part/offsets.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { trueMinus } from '../../units/number-format.ts';
import { type Rule, showLength, showOnRule } from '../../units/rule.ts';
import type { Unit } from '../../units/unit.ts';
import { jobCommand } from '../define-command.ts';
import { selectBaseLine, selectEdges, stationsAtSpacing } from '../options/edge-options.ts';
import { atOption, type OptionValues, option, parseLengthOption } from '../options/option-spec.ts';
import { edgeOption, everyOption, fromOption } from '../options/shared-options.ts';
import { pick, textTable, UNIT_WORDS } from '../output/print-answer.ts';

const OPTIONS = [
  edgeOption('edge to list (default: every edge)'),
  everyOption,
  option('--at <stations>', 'stations to list, such as "6, 12, 18 1/2"; not with --every'),
  fromOption,
  option('--csv', 'print comma-separated lines, for a spreadsheet'),
] as const;

type OffsetsOptions = OptionValues<typeof OPTIONS>;

export const makeCommand = jobCommand({
  name: 'offsets',
  summary: 'the table of offsets, for laying out with a rule',
  description:
    'Print the table of offsets: the distance of each edge from the reference line, station by station. Offsets are ' +
    'rounded to your rule: "full" is just over the mark, "scant" just under it. A shoulder has a row for each side.',
  notes: [
    'If an end is cut at an angle, a row marks where the wood ends on that edge. Use the rows past it only to draw the ' +
      'edge.',
  ],
  options: OPTIONS,
  files: 'Reads JOB. Writes no file. To keep the table, add "> table.csv".',
  examples: [
    'fairlath offsets samples/hall-bench-leg.yaml --every 2',
    'fairlath offsets samples/hall-bench-leg.yaml --edge back --at "6, 12, 18 1/2"',
    'fairlath offsets --curve arc --chord 600 --rise 75 --units mm --from chord --csv',
  ],
  run: ({ part }, options) => {
    const tables = selectEdges(part, options).map((edge) => buildTable(part, edge, options));
    return {
      part,
      warnings: [...part.warnings, ...tables.flatMap((table) => doublesBackWarnings(table, part.rule))],
      json: () => ({ edges: tables.map(asJson) }),
      text: () =>
        options.csv ? offsetsCsv(part.rule, tables).replace(/\n$/, '') : asText(part, tables, options),
    };
  },
});

const asJson = ({ name, rows }: OffsetsTable): object => ({
  name,
  rows: rows.map((row) => pick(row, 'station', 'offset', 'side', 'wood', 'shown')),
});

function buildTable(part: Part, edge: PartEdge, options: OffsetsOptions): OffsetsTable {
  const { rule } = part;
  const [base, cuts] = [selectBaseLine(edge, options), cutEnds(part, edge)];
  const requested = requestedStations(edge, base, rule.unit, options);
  const stations = options.at === undefined ? addCutEnds(requested, cuts, base) : requested;
  const table = offsetsTable(edge, stations, rule, base, cuts);
  const beyond = stations.find((station) => !table.rows.some((row) => row.station === station));
  if (beyond !== undefined)
    throw new Fault(
      'command.no-such-station',
      `--at: the edge "${edge.name}" has no station ${showLength(beyond, rule)}. Give stations between its ends.`,
    );
  return table;
}

const doublesBackWarnings = ({ name, rows }: OffsetsTable, rule: Rule): Warning[] =>
  rows
    .filter(({ passes }) => passes > 1)
    .map(({ station, passes }) => ({
      code: 'offsets.doubles-back',
      message: `the edge "${name}" passes station ${showLength(station, rule)} ${passes} times. The table gives the first offset.`,
    }));

function requestedStations(edge: PartEdge, base: BaseLine, unit: Unit, options: OffsetsOptions): number[] {
  const { at, every } = options;
  if (at === undefined) return stationsAtSpacing(edge, base, unit, every);
  if (every !== undefined) throw new Fault('command.at-or-every', 'Use --at or --every, not both.');
  const typed = at.split(',');
  atOption('--at', () => assertFewStations(typed.length));
  return typed.map((one) => parseLengthOption('--at', one, unit));
}

function asText(part: Part, tables: readonly OffsetsTable[], { from }: OffsetsOptions): string {
  const line = from === 'chord' ? 'the chord of the edge' : 'the reference line';
  const blocks = tables.map(({ name, rows }) => {
    const body = rows.map((row) => [
      `  ${showOnRule(row.station, part.rule)}`,
      trueMinus(row.shown),
      rowNote(row),
    ]);
    return `${name}\n${textTable([['  station', 'offset', ''], ...body])}`;
  });
  return `${part.name}: stations along ${line}, offsets square to it, in ${UNIT_WORDS[part.rule.unit]}\n\n${blocks.join('\n\n')}`;
}
