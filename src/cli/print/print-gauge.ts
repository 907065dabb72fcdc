import type { LaidGauge } from '../../export/gauge/gauge-layout.ts';
import { type GaugeStrip, gaugeStrip } from '../../part/derived/story-stick.ts';
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

export const GAUGE_OPTIONS = [everyOption, fromOption] as const;

type GaugeOptions = OptionValues<typeof GAUGE_OPTIONS>;

/** `print --gauge`: strips for a story stick instead of the pattern. */
export const prepareGauge: PreparePrint<GaugeOptions> = async (part, options, sheets) => {
  const { layOutGauge, worthReading } = await import('../../export/gauge/gauge-layout.ts');
  const { gaugePages } = await import('../../export/gauge/gauge-pages.ts');
  const strips = selectEdges(part, options).map((edge) => {
    const base = selectBaseLine(edge, options);
    return gaugeStrip(part, edge, base, stationsAtSpacing(edge, base, part.rule.unit, options.every));
  });
  rejectTurn(sheets);
  const read = worthReading(strips, part);
  const from = options.from === 'chord' ? 'chord' : 'reference';
  const gauge = atOption('--gauge', () =>
    layOutGauge({ part, from, strips: read, tolerance: graduationMm(part.rule) }, sheets),
  );
  return {
    part,
    title: `Gauge: ${part.name}`,
    layout: gauge.layout,
    ...gaugePages(gauge, options.cover),
    json: { gauge: asJson(gauge) },
    messages: asText(gauge, strips),
    warnings: read.flatMap((strip) => doublesBackWarnings(strip, part.rule)),
  };
};

/** The stick has one reading for each station, but a rule there may meet the edge elsewhere. */
function doublesBackWarnings({ edge, doubled }: GaugeStrip, rule: Rule): Warning[] {
  if (doubled.length === 0) return [];
  const stations = doubled.map((station) => showOnRule(station, rule)).join(', ');
  const message = `the edge "${edge}" passes ${doubled.length > 1 ? 'stations' : 'station'} ${stations} more than once; the strip has one offset for each. See offsets, and measure there by the pattern.`;
  return [{ code: 'gauge.doubles-back', message }];
}

function rejectTurn({ turn }: LayOutOptions): void {
  if (turn !== 'auto' && turn !== 0)
    throw new Fault('gauge.turn', 'a gauge lies along its sheets. Leave --turn out.', '--turn');
}

const asJson = ({ part, from, tolerance, placed }: LaidGauge): object => ({
  from,
  tolerance,
  strips: placed.map(({ strip, edge, out }) => ({
    edge: strip.edge,
    workingEdge: edge,
    measured: out > 0 ? 'up' : 'down',
    stations: strip.ticks.map((tick) => ({
      ...pick(tick, 'station', 'offset'),
      shown: plainOnRule(tick.offset, part.rule),
      what: tick.what,
    })),
  })),
});

function asText({ part, placed, style, tolerance }: LaidGauge, strips: readonly GaugeStrip[]): string[] {
  const laidStrips = placed.map(({ strip }) => strip);
  const left = strips.filter((strip) => !laidStrips.includes(strip)).map(({ edge }) => `"${edge}"`);
  const names = laidStrips.map(({ edge, ticks }) => `"${edge}", ${ticks.length} stations`).join('; ');
  return present(
    `Strips: ${names}. Good within ${showLength(tolerance, part.rule)}.`,
    left.length > 0 && `${left.join(' and ')} lies on the line itself: there is nothing to read.`,
    style.every > 1 && 'Ticks stand close: not every station has a label. See offsets for all.',
  );
}
