import type { LaidStoryStick } from '../../export/story-stick/stick-layout.ts';
import { type StickRow, stickRow } from '../../part/derived/story-stick.ts';
import type { LayOutOptions } from '../../tiling/tile.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { graduationMm } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { plainOnRule, type Rule, showLength, showOnRule } from '../../units/rule.ts';
import { selectBaseLine, selectEdges, stationsAtSpacing } from '../options/edge-options.ts';
import { atOption, type OptionValues } from '../options/option-spec.ts';
import { everyOption, fromOption } from '../options/shared-options.ts';
import { pick } from '../output/print-answer.ts';
import type { PreparePrint } from './prepared-print.ts';

export const STORY_STICK_OPTIONS = [everyOption, fromOption] as const;

type StoryStickOptions = OptionValues<typeof STORY_STICK_OPTIONS>;

/** `print --gauge`: strips for a story stick instead of the pattern. */
export const prepareStoryStick: PreparePrint<StoryStickOptions> = async (part, options, sheets) => {
  const { layOutStoryStick, worthReading } = await import('../../export/story-stick/stick-layout.ts');
  const { storyStickPages } = await import('../../export/story-stick/stick-pages.ts');
  const strips = selectEdges(part, options).map((edge) => {
    const base = selectBaseLine(edge, options);
    return stickRow(part, edge, base, stationsAtSpacing(edge, base, part.rule.unit, options.every));
  });
  rejectTurn(sheets);
  const read = worthReading(strips, part);
  const from = options.from === 'chord' ? 'chord' : 'reference';
  const gauge = atOption('--gauge', () =>
    layOutStoryStick({ part, from, rows: read, tolerance: graduationMm(part.rule) }, sheets),
  );
  return {
    part,
    title: `Gauge: ${part.name}`,
    layout: gauge.layout,
    ...storyStickPages(gauge, options.cover),
    json: { gauge: asJson(gauge) },
    messages: asText(gauge, strips),
    warnings: read.flatMap((strip) => doublesBackWarnings(strip, part.rule)),
  };
};

/** The stick has one reading for each station, but a rule there may meet the edge elsewhere. */
function doublesBackWarnings({ edge, doubled }: StickRow, rule: Rule): Warning[] {
  if (doubled.length === 0) return [];
  const stations = doubled.map((station) => showOnRule(station, rule)).join(', ');
  const message = `the edge "${edge}" passes ${doubled.length > 1 ? 'stations' : 'station'} ${stations} more than once; the strip has one offset for each. See offsets, and measure there by the pattern.`;
  return [{ code: 'gauge.doubles-back', message }];
}

function rejectTurn({ turn }: LayOutOptions): void {
  if (turn !== 'auto' && turn !== 0)
    throw new Fault('gauge.turn', 'a gauge lies along its sheets. Leave --turn out.', '--turn');
}

const asJson = ({ part, from, tolerance, placed }: LaidStoryStick): object => ({
  from,
  tolerance,
  strips: placed.map(({ row, edge, out }) => ({
    edge: row.edge,
    workingEdge: edge,
    measured: out > 0 ? 'up' : 'down',
    stations: row.ticks.map((tick) => ({
      ...pick(tick, 'station', 'offset'),
      shown: plainOnRule(tick.offset, part.rule),
      what: tick.what,
    })),
  })),
});

function asText({ part, placed, style, tolerance }: LaidStoryStick, strips: readonly StickRow[]): string[] {
  const laidStrips = placed.map(({ row }) => row);
  const left = strips.filter((strip) => !laidStrips.includes(strip)).map(({ edge }) => `"${edge}"`);
  const names = laidStrips.map(({ edge, ticks }) => `"${edge}", ${ticks.length} stations`).join('; ');
  return present(
    `Strips: ${names}. Good within ${showLength(tolerance, part.rule)}.`,
    left.length > 0 && `${left.join(' and ')} lies on the line itself: there is nothing to read.`,
    style.every > 1 && 'Ticks stand close: not every station has a label. See offsets for all.',
  );
}
