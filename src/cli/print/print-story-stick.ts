import type { LaidStoryStick, StickPiece } from '../../export/story-stick/stick-layout.ts';
import { type StickRow, stickRow } from '../../part/derived/story-stick.ts';
import type { Layout } from '../../tiling/layout.ts';
import { pageMatrix } from '../../tiling/paper/page-matrix.ts';
import type { LayOutOptions } from '../../tiling/tile.ts';
import { itemAt } from '../../units/checked.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { graduationMm } from '../../units/graduation.ts';
import { joinList, present } from '../../units/lists.ts';
import { plainOnRule, type Rule, showLength } from '../../units/rule.ts';
import { selectBaseLine, selectEdges, stationsAtSpacing } from '../options/edge-options.ts';
import { atOption, type OptionValues } from '../options/option-spec.ts';
import { everyOption, fromOption } from '../options/shared-options.ts';
import { pick } from '../output/print-answer.ts';
import type { PreparePrint } from './prepared-print.ts';

export const STORY_STICK_OPTIONS = [everyOption, fromOption] as const;

type StoryStickOptions = OptionValues<typeof STORY_STICK_OPTIONS>;

/** `print --story-stick`: rows for a story stick instead of the pattern. */
export const prepareStoryStick: PreparePrint<StoryStickOptions> = async (part, options, sheets) => {
  const { layOutStoryStick, worthReading } = await import('../../export/story-stick/stick-layout.ts');
  const { storyStickPages } = await import('../../export/story-stick/stick-pages.ts');
  const rows = selectEdges(part, options).map((edge) => {
    const base = selectBaseLine(edge, options);
    return stickRow(part, edge, base, stationsAtSpacing(edge, base, part.rule.unit, options.every));
  });
  rejectTurn(sheets);
  const read = worthReading(rows, part);
  const from = options.from === 'chord' ? 'chord' : 'reference';
  const stick = atOption('--story-stick', () =>
    layOutStoryStick({ part, from, rows: read, tolerance: graduationMm(part.rule) }, sheets),
  );
  return {
    part,
    title: `Story stick: ${part.name}`,
    layout: stick.layout,
    ...storyStickPages(stick),
    json: { gauge: asJson(stick) },
    messages: asText(stick, rows),
    warnings: read.flatMap((row) => doublesBackWarnings(row, part.rule)),
  };
};

/** The stick has one reading for each station, but a rule may meet the edge at another place too. */
function doublesBackWarnings({ edge, doubled }: StickRow, rule: Rule): Warning[] {
  if (doubled.length === 0) return [];
  const stations = joinList(
    doubled.map((station) => showLength(station, rule)),
    ' and ',
  );
  const several = doubled.length > 1;
  const message = `the edge "${edge}" passes ${several ? 'stations' : 'station'} ${stations} more than once, and the story stick gives one offset. Check ${several ? 'these stations' : 'this station'} with the full pattern.`;
  return [{ code: 'gauge.doubles-back', message }];
}

/** Only one edge can be the line itself. */
const NO_ROW = 'is the line to measure from, so it has no row.';

function rejectTurn({ turn }: LayOutOptions): void {
  if (turn !== 'auto' && turn !== 0)
    throw new Fault('gauge.turn', 'a story stick always runs along its sheets. Leave out --turn.', '--turn');
}

const asJson = ({ part, from, tolerance, placed, layout, rowHeight }: LaidStoryStick): object => ({
  from,
  tolerance,
  strips: placed.map(({ row, out, pieces }) => ({
    edge: row.edge,
    measured: out > 0 ? 'up' : 'down',
    pieces: pieces.map((piece) => ({
      ...pick(piece, 'from', 'to'),
      ...sheetOf(layout, piece, out > 0 ? piece.top : piece.top - rowHeight),
    })),
    stations: row.ticks.map((tick) => ({
      ...pick(tick, 'station', 'offset'),
      shown: plainOnRule(tick.offset, part.rule),
      what: tick.what,
    })),
  })),
});

/** Stations along the working edge to points on the page. */
function sheetOf({ sheets }: Layout, { sheet, left, from }: StickPiece, edge: number): object {
  const on = itemAt(sheets, sheet);
  return { sheet: on.name, toPage: pageMatrix({ ...on, toSheet: [1, 0, 0, 1, left - from, edge] }) };
}

function asText({ part, placed, style, tolerance }: LaidStoryStick, rows: readonly StickRow[]): string[] {
  const laidRows = placed.map(({ row }) => row);
  const straight = rows.filter((row) => !laidRows.includes(row)).map(({ edge }) => `"${edge}"`);
  const names = laidRows.map(({ edge, ticks }) => `"${edge}" with ${ticks.length} stations`);
  return present(
    `${laidRows.length > 1 ? 'Rows' : 'Row'}: ${joinList(names, ' and ')}. Tolerance: ${showLength(tolerance, part.rule)}.`,
    straight.length > 0 && `${straight.join(' and ')} ${NO_ROW}`,
    style.every > 1 &&
      'The ticks are close together, so some stations have no label. "fairlath offsets" lists them all.',
  );
}
