import type { StickRow, StickTick } from '../../part/derived/story-stick.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import type { Unit } from '../../units/unit.ts';
import { lengthWithoutUnit } from '../drawing/dimensions.ts';
import { textWidth } from '../drawing/text-width.ts';

/** The offset is read at arm's length. */
export const TYPE_MM = { what: 2.8, station: 3.2, offset: 4.2 } as const;
const WHITE_MM = 1.6;
/** The box for the figure as measured: a pencil needs so much for "2 19/32", mm. */
export const BOX_MM = { width: 19, height: 8 } as const;
export const TURNED_MM = 6;
/** The rounding of a spacing's multiples, as a share of the spacing. */
const SAME_SHARE = 1e-6;

/** Labels run along the stick while they find room, then across it, then at every so many stations. */
export interface StickLabelStyle {
  readonly turned: boolean;
  readonly every: number;
}

export interface StickLabel {
  readonly tick: StickTick;
  readonly what: string;
  readonly station: string;
  readonly offset: string;
}

/** "3⁄4 below": the sign in words, for a minus in pencil is soon overlooked. */
function offsetReading(offset: number, rule: Rule): string {
  const isBelow = readOnRule(offset, rule).text.startsWith('-');
  return isBelow ? `${lengthWithoutUnit(-offset, rule)} below` : lengthWithoutUnit(offset, rule);
}

/** A label of a tick on a row that is measured up from (1) or down from (−1). */
export const stickLabel = (tick: StickTick, rule: Rule, out: 1 | -1 = 1): StickLabel => ({
  tick,
  what: tick.what === 'station' ? '' : tick.what,
  station: lengthWithoutUnit(tick.station, rule),
  offset: offsetReading(out * tick.offset, rule),
});

export function stickLabelWidth({ what, station, offset }: StickLabel, { turned }: StickLabelStyle): number {
  if (turned) return TURNED_MM;
  const widths = [
    textWidth(what, TYPE_MM.what),
    textWidth(station, TYPE_MM.station),
    textWidth(offset, TYPE_MM.offset),
  ];
  return Math.max(BOX_MM.width, ...widths) + WHITE_MM;
}

export const turnedLength = (label: StickLabel): number =>
  textWidth(turnedStation(label), TYPE_MM.station) + 2 + textWidth(label.offset, TYPE_MM.offset);

export const turnedStation = ({ what, station }: StickLabel): string =>
  what === '' ? station : `${what} ${station}`;

export const labelledTicks = ({ ticks, spacing }: StickRow, { every }: StickLabelStyle): StickTick[] =>
  ticks.filter(({ what, station }) => {
    const steps = station / (spacing * every);
    return every === 1 || what !== 'station' || Math.abs(steps - Math.round(steps)) < SAME_SHARE;
  });

export const LABEL_STEPS: Readonly<Record<Unit, readonly number[]>> = {
  in: [1, 2, 4, 8, 16, 32, 64, 128, 1024],
  mm: [1, 2, 5, 10, 20, 50, 100, 1000],
};
