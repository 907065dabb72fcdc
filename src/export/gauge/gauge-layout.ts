import { point } from '../../curves/geometry/point.ts';
import { polygon } from '../../curves/geometry/transform.ts';
import { type GaugeStrip, isOnBase } from '../../part/derived/story-stick.ts';
import type { Part } from '../../part/part.ts';
import { checkDistance } from '../../tiling/check-crosses.ts';
import type { LinesToTile } from '../../tiling/grid/lines-to-tile.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { type LayOutOptions, layOutLines } from '../../tiling/tile.ts';
import { itemAt } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { spreadLabels } from '../labels/spread-labels.ts';
import {
  BOX_MM,
  type GaugeLabel,
  type GaugeLabelStyle,
  gaugeLabel,
  gaugeLabelWidth,
  LABEL_STEPS,
  labelledTicks,
  turnedLength,
} from './gauge-labels.ts';

/** The strips of a part to stick on story sticks, as measured along the reference line or along chords. */
export interface Gauge {
  /** Whose edges are read. */
  readonly part: Part;
  /** The line that the stick is laid on: the job’s reference line, or each edge’s own chord. */
  readonly from: 'reference' | 'chord';
  /** A strip to each edge that is read. */
  readonly strips: readonly GaugeStrip[];
  /** How far off a reading may be and still count as on the line, mm. */
  readonly tolerance: number;
}

/** A gauge laid over sheets: station along x, each strip below its working edge, mm. */
export interface LaidGauge extends Gauge {
  readonly layout: Layout;
  readonly style: GaugeLabelStyle;
  readonly placed: readonly PlacedStrip[];
}

export interface PlacedStrip {
  readonly strip: GaugeStrip;
  readonly top: number;
  readonly bottom: number;
  /** Flush with the stick's edge: the strip's top, or its bottom for a line that lies below. */
  readonly edge: number;
  readonly out: 1 | -1;
}

/** Depths on a strip: to the ends of ticks and leads, of upright boxes, of the band at the back, of flat words. */
export const STRIP_MM = { tick: 6, lead: 10, boxGap: 2, band: 11, turnedBox: 18, flatWords: 22.4 } as const;
const WORDS_MM = 12.6;
const STRIP_GAP_MM = 8;
/** A register mark and its white take 13 mm: lines so near each other keep them out of a strip. */
const GUARD_LINE_MM = 11;
/** A label keeps this far from the ends of its strip and from where sheets are cut, mm. */
const CUT_WHITE_MM = 1.2;

/** The strips over the fewest sheets in one row, with the fullest labels that find room. */
export function layOutGauge(gauge: Gauge, options: Omit<LayOutOptions, 'turn'>): LaidGauge {
  if (gauge.strips.length === 0)
    throw new Fault(
      'gauge.nothing-to-read',
      'the edge is the line that it would be measured from, so a gauge reads 0 all along. Name another edge.',
    );
  const flat = layOutWithStyle(gauge, { turned: false, every: 1 }, options);
  if (hasRoomForLabels(flat)) return flat;
  const turned = layOutWithStyle(gauge, { turned: true, every: 1 }, options);
  const every = LABEL_STEPS[gauge.part.rule.unit].find((step) =>
    hasRoomForLabels({ ...turned, style: { turned: true, every: step } }),
  );
  return { ...turned, style: { turned: true, every: every ?? Number.POSITIVE_INFINITY } };
}

/** The strips worth printing: an edge that lies on the line is left out. */
export const worthReading = (strips: readonly GaugeStrip[], { rule }: Part): readonly GaugeStrip[] =>
  strips.filter((strip) => !isOnBase(strip, rule));

function layOutWithStyle(gauge: Gauge, style: GaugeLabelStyle, options: Omit<LayOutOptions, 'turn'>) {
  const placed = placeStrips(gauge, style);
  const layout = layOutLines(gaugeLinesToTile(gauge, placed), { ...options, turn: 0 });
  return { ...gauge, style, placed, layout };
}

function placeStrips({ strips, part }: Gauge, style: GaugeLabelStyle): PlacedStrip[] {
  let next = 0;
  return strips.map((strip) => {
    const top = next;
    const labels = strip.ticks.map((tick) => gaugeLabel(tick, part.rule));
    const bottom = top - stripHeight(labels, style);
    next = bottom - STRIP_GAP_MM;
    const out = strip.ticks.some(({ offset }) => offset > 0) ? 1 : -1;
    return { strip, top, bottom, out, edge: out > 0 ? top : bottom };
  });
}

const stripHeight = (labels: readonly GaugeLabel[], { turned }: GaugeLabelStyle): number =>
  STRIP_MM.band +
  STRIP_MM.boxGap +
  (turned
    ? WORDS_MM - 2 + Math.max(...labels.map(turnedLength)) + STRIP_MM.turnedBox
    : STRIP_MM.flatWords + BOX_MM.height);

function gaugeLinesToTile({ part, from }: Gauge, placed: readonly PlacedStrip[]): LinesToTile {
  const outlines = placed.flatMap(stripOutline);
  const guards = placed.flatMap(({ strip, top, bottom }) => {
    const count = Math.ceil((top - bottom) / GUARD_LINE_MM);
    return Array.from({ length: count - 1 }, (_, i) => {
      const y = top + ((bottom - top) * (i + 1)) / count;
      return { type: 'line', from: point(strip.from, y), to: point(strip.to, y) } as const;
    });
  });
  return {
    all: [...outlines, ...guards],
    finished: outlines,
    extraPoints: [],
    landmarks: placed.flatMap(({ strip, edge }) => strip.ticks.map(({ station }) => point(station, edge))),
    checks: placed.map(({ strip, edge }) => {
      const [from, to] = [point(strip.from, edge), point(strip.to, edge)];
      return checkDistance(`${strip.edge}, working edge, end to end`, from, to);
    }),
    identity: [part.name, from, placed],
  };
}

export function stripOutline({ strip: { from, to }, top, bottom, edge }: PlacedStrip) {
  const far = edge === top ? bottom : top;
  return polygon([point(from, edge), point(to, edge), point(to, far), point(from, far)]);
}

export function stripRangeOnSheet({ cell, toSheet }: Sheet, { from, to }: GaugeStrip) {
  const shift = toSheet[4];
  return [Math.max(from, cell.left - shift), Math.min(to, cell.right - shift)] as const;
}

export interface LaidLabel extends GaugeLabel {
  readonly middle: number;
}

/** The labels on a sheet, and their middles where there is room for all. */
export function stripLabelsOn(
  { part, style }: Pick<LaidGauge, 'part' | 'style'>,
  { strip, out }: PlacedStrip,
  sheet: Sheet,
): LaidLabel[] | undefined {
  const [low, high] = stripRangeOnSheet(sheet, strip);
  const isLast = high === strip.to;
  const labels = labelledTicks(strip, style)
    .filter(({ station }) => station >= low && (station < high || isLast))
    .map((tick) => gaugeLabel(tick, part.rule, out));
  const wished = labels.map((label) => ({ at: label.tick.station, width: gaugeLabelWidth(label, style) }));
  const middles = spreadLabels(wished, low + CUT_WHITE_MM, high - CUT_WHITE_MM);
  return middles && labels.map((label, i) => ({ ...label, middle: itemAt(middles, i) }));
}

const hasRoomForLabels = (gauge: LaidGauge): boolean =>
  gauge.layout.sheets.every((sheet) =>
    gauge.placed.every((placed) => stripLabelsOn(gauge, placed, sheet) !== undefined),
  );
