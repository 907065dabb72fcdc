import type { GaugeStrip, GaugeTick } from '../../part/derived/story-stick.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import type { Unit } from '../../units/unit.ts';
import { lengthWithoutUnit } from '../drawing/dimensions.ts';
import { textWidth } from '../drawing/text-width.ts';
import { spreadLabels } from '../labels/spread-labels.ts';

/** Type of a gauge's labels, mm: what it is, where it is, what to read. The last is read at arm's length. */
export const WHAT_MM = 2.8;
export const STATION_MM = 3.2;
export const OFFSET_MM = 4.2;

/** White between neighbouring labels, mm. */
const WHITE_MM = 1.6;

/** The box for the figure as measured: a pencil needs so much for "2 19/32", mm. */
export const BOX_MM = { width: 19, height: 8 } as const;

/** A label turned upright takes so much of the stick, mm: one line of the larger type. */
export const TURNED_MM = 6;

/** How the labels of a gauge stand: along the stick while they find room, else upright, else not all. */
export interface GaugeLabelStyle {
  readonly turned: boolean;
  /** Every so many plain stations have a label; the other ticks stand bare. */
  readonly every: number;
}

export interface GaugeLabel {
  readonly tick: GaugeTick;
  readonly what: string;
  readonly station: string;
  readonly offset: string;
}

/** "3⁄4 below": the sign in words, for a minus in pencil is soon overlooked. */
function offsetReading(offset: number, rule: Rule): string {
  const isBelow = readOnRule(offset, rule).text.startsWith('-');
  return isBelow ? `${lengthWithoutUnit(-offset, rule)} below` : lengthWithoutUnit(offset, rule);
}

/** A label of a tick on a strip that is measured up from (1) or down from (−1). */
export const gaugeLabel = (tick: GaugeTick, rule: Rule, out: 1 | -1 = 1): GaugeLabel => ({
  tick,
  what: tick.what === 'station' ? '' : tick.what,
  station: lengthWithoutUnit(tick.station, rule),
  offset: offsetReading(out * tick.offset, rule),
});

const gaugeLabelWidth = ({ what, station, offset }: GaugeLabel): number =>
  Math.max(
    BOX_MM.width,
    textWidth(what, WHAT_MM),
    textWidth(station, STATION_MM),
    textWidth(offset, OFFSET_MM),
  );

/** How far a label runs once it is turned, its box left out, mm. */
export const turnedLength = (label: GaugeLabel): number =>
  textWidth(turnedStation(label), STATION_MM) + 2 + textWidth(label.offset, OFFSET_MM);

export const turnedStation = ({ what, station }: GaugeLabel): string =>
  what === '' ? station : `${what} ${station}`;

/** Two stations this near, as a share of their spacing, are one: the rounding of their multiples. */
const SAME_SHARE = 1e-6;

/** Those of a strip's ticks that have a label: all landmarks, and the stations at every so many spacings. */
export const labelledTicks = (
  { ticks, spacing }: GaugeStrip,
  { every }: GaugeLabelStyle,
): readonly GaugeTick[] =>
  ticks.filter(({ what, station }) => {
    const steps = station / (spacing * every);
    return every === 1 || what !== 'station' || Math.abs(steps - Math.round(steps)) < SAME_SHARE;
  });

/** How many spacings from label to label, to try in turn: what is told at a glance on such a rule. */
export const LABEL_STEPS: Readonly<Record<Unit, readonly number[]>> = {
  in: [1, 2, 4, 8, 16, 32, 64, 128, 1024],
  mm: [1, 2, 5, 10, 20, 50, 100, 1000],
};

/** Middles of the labels of some ticks between two places of the stick; undefined without room for all. */
export const labelMiddles = (
  labels: readonly GaugeLabel[],
  { turned }: GaugeLabelStyle,
  low: number,
  high: number,
): number[] | undefined =>
  spreadLabels(
    labels.map((label) => ({
      at: label.tick.station,
      width: turned ? TURNED_MM : gaugeLabelWidth(label) + WHITE_MM,
    })),
    low,
    high,
  );
