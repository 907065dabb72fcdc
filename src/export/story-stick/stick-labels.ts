import { distance } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { StickRow, StickTick } from '../../part/derived/story-stick.ts';
import type { Part } from '../../part/part.ts';
import { itemAt } from '../../units/checked.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import type { Unit } from '../../units/unit.ts';
import { lengthWithoutUnit } from '../drawing/dimensions.ts';
import { textWidth } from '../drawing/text-width.ts';
import { fractionSize, lineWidth, NOTE_MM, typeSize } from '../sheets/sheet-type.ts';

/** Heights of the figures that are tried in turn where labels run along the stick, mm: it is read standing. */
export const FIGURES_MM = [5, 4.2, 3.5] as const;
export const TURNED_TYPE_MM = { station: 3.8, offset: 4.6 } as const;
/** The box for the figure as measured: a pencil needs so much for "2 19/32", mm. */
export const BOX_MM = { width: 19, height: 8 } as const;
export const TURNED_MM = 6.2;
/** From a tick to its label, between the figures and the box beside them, and between labels, mm. */
export const LABEL_MM = { gap: 1, box: 2, white: 2 } as const;
/** The rounding of a spacing's multiples, as a share of the spacing. */
const SAME_SHARE = 1e-6;

/** The box is beside the offset where there is room, then below it; then labels stand across the stick. */
export type StickLabelShape = 'beside' | 'below' | 'turned';

export interface StickLabelStyle {
  readonly shape: StickLabelShape;
  /** Height of the figures, mm; turned labels have their own. */
  readonly figure: number;
  /** Every so many stations have a label. */
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
export const stickLabel = (tick: StickTick, part: Part, out: 1 | -1): StickLabel => ({
  tick,
  what: tick.what === 'station' ? '' : tick.what === 'end' && isSlanted(part, tick) ? 'corner' : tick.what,
  station: lengthWithoutUnit(tick.station, part.rule),
  offset: offsetReading(out * tick.offset, part.rule),
});

/** Whether the end of the wood at a tick is cut at a slant: its corner is what the tick is at. */
function isSlanted({ ends, bounds }: Part, { station }: StickTick): boolean {
  const end = ends?.[station < (bounds.left + bounds.right) / 2 ? 0 : 1];
  if (!end) return false;
  const [low, high] = end.face;
  return (
    Math.abs(low.x - high.x) > JOIN_MM ||
    end.back.some((at, i) => distance(at, itemAt(end.face, i)) > JOIN_MM)
  );
}

const figureWidth = (text: string, { figure }: StickLabelStyle): number =>
  lineWidth({ text, size: typeSize(figure) });

const nameWidth = ({ what }: StickLabel): number =>
  what === '' ? 0 : textWidth(what, NOTE_MM) + LABEL_MM.gap;

export function stickLabelWidth(label: StickLabel, style: StickLabelStyle): number {
  if (style.shape === 'turned') return TURNED_MM;
  const offset = figureWidth(label.offset, style);
  const lower =
    style.shape === 'beside' ? offset + LABEL_MM.box + BOX_MM.width : Math.max(offset, BOX_MM.width);
  return Math.max(figureWidth(label.station, style) + nameWidth(label), lower);
}

export const offsetWidth = ({ offset }: StickLabel, style: StickLabelStyle): number =>
  figureWidth(offset, style);
export const stationWidth = ({ station }: StickLabel, style: StickLabelStyle): number =>
  figureWidth(station, style);

export const turnedLength = (label: StickLabel): number =>
  lineWidth({ text: turnedStation(label), size: TURNED_TYPE_MM.station }) +
  4 +
  lineWidth({ text: label.offset, size: TURNED_TYPE_MM.offset });

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

/** Depths from the working edge to the bases of the two lines of a label, and to the end of the row, mm. */
export function labelDepths({ shape, figure }: StickLabelStyle) {
  const high = fractionSize(typeSize(figure)) * FRACTION_HEIGHT;
  const station = BETWEEN_MM + high;
  const offset = station + Math.max(high + BETWEEN_MM, BOX_MM.height);
  const boxTop = shape === 'beside' ? offset - BOX_MM.height + 0.4 : offset + BETWEEN_MM;
  return { station, offset, boxTop, end: boxTop + BOX_MM.height + 0.8 };
}

/** White between the lines of a label, mm. */
const BETWEEN_MM = 1.2;
/** How high a fraction rises over its base, a part of its type size (the font's own). */
const FRACTION_HEIGHT = 0.67;
