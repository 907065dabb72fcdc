import { around, grown } from '../../curves/geometry/bounds.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { CROSS_REACH_MM } from '../../tiling/check-crosses.ts';
import { REGISTER_REACH_MM } from '../../tiling/grid/seams.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { plusMinus } from '../drawing/dimensions.ts';
import { type Item, type Page, polyline, type Stroke, type Words, words } from '../drawing/drawing.ts';
import { CAPITALS, fitted, LEADING, textWidth } from '../drawing/text-width.ts';
import type { Room } from '../labels/free-space.ts';
import { checkCrosses, registerMarks, seamWords, trimLines } from '../sheets/register-marks.ts';
import { scaleBars } from '../sheets/scale-bars.ts';
import { onSheet, type SheetView } from '../sheets/sheet-context.ts';
import { nameBlock } from '../sheets/title-block.ts';
import {
  BOX_MM,
  type GaugeLabel,
  OFFSET_MM,
  STATION_MM,
  TURNED_MM,
  turnedStation,
  WHAT_MM,
} from './gauge-labels.ts';
import {
  BAND_MM,
  BOX_GAP_MM,
  FLAT_WORDS_MM,
  type LaidGauge,
  LEAD_MM,
  labelsOn,
  outlineOf,
  type PlacedStrip,
  stretchOn,
  TICK_MM,
  TURNED_BOX_MM,
} from './gauge-layout.ts';
import { gaugePicture } from './gauge-picture.ts';

/** White between furniture and the trim lines, mm. */
const INSET_MM = 3;
const BAND_TYPE_MM = 3;

/** One sheet of a gauge at true size. */
export function gaugePage(gauge: LaidGauge, sheet: Sheet): Page {
  const view = viewOf(gauge, sheet);
  const strips = gauge.placed.flatMap((placed) => stripItems(gauge, view, placed));
  const room = roomOn(gauge, view);
  const items: Item[] = [
    { type: 'clip', ...sheet.window, items: strips },
    ...trimLines(sheet),
    ...registerMarks(view),
    ...checkCrosses(view),
    ...seamWords(view, room.taken),
    ...furniture(gauge, view, room),
  ];
  const { width, height } = sheet.size;
  return { name: sheet.name, drawing: { width, height, items }, stretch: sheet.stretch };
}

const viewOf = ({ part, layout }: LaidGauge, sheet: Sheet): SheetView => ({
  part: { ...part, name: `Gauge: ${part.name}` },
  layout,
  sheet,
  setting: { stations: [], landmarks: [], joints: [], strips: [] },
  lines: [],
});

/** The name, the bar along the stick, and on the first sheet how the gauge is read. */
function furniture(gauge: LaidGauge, view: SheetView, room: Room): Item[] {
  const { left, bottom, right } = room.area;
  const whole: Room = { area: grown(view.sheet.window, -1), taken: room.taken };
  const name = nameBlock(view, [room, whole]) ?? [];
  const bars = scaleBars([room, whole], 'across', { x: left, y: bottom }) ?? [];
  const isFirst = view.sheet === gauge.layout.sheets[0];
  return [...name, ...bars, ...(isFirst ? gaugePicture(gauge, room, point(right, bottom)) : [])];
}

function roomOn({ placed, layout }: LaidGauge, view: SheetView): Room {
  const { sheet } = view;
  return {
    area: grown(sheet.cell, -INSET_MM),
    taken: [
      ...placed.map(({ strip, top, bottom }) => {
        const [low, high] = [onSheet(view, point(strip.from, bottom)), onSheet(view, point(strip.to, top))];
        return grown({ left: low.x, bottom: low.y, right: high.x, top: high.y }, 1);
      }),
      ...sheet.marks.map(({ at }) => around(onSheet(view, at), REGISTER_REACH_MM + 1)),
      ...crossesOn(layout, sheet).map((at) => around(onSheet(view, at), CROSS_REACH_MM)),
    ],
  };
}

const crossesOn = ({ crosses }: Layout, { name }: Sheet): Point[] =>
  crosses.filter(({ sheet }) => sheet === name).map(({ at }) => at);

/** A strip's own frame on a sheet: the station, and how far from the working edge into the strip, mm. */
interface Frame {
  readonly at: (station: number, down: number) => Point;
  /** The baseline of words that take the strip from one depth to a deeper one. */
  readonly base: (from: number, to: number) => number;
  /** Whether the strip's far end is above its working edge. */
  readonly flipped: boolean;
}

function frameOf(view: SheetView, { edge, out }: PlacedStrip): Frame {
  return {
    at: (station, down) => onSheet(view, point(station, edge - out * down)),
    base: (from, to) => (out > 0 ? to : from),
    flipped: out < 0,
  };
}

/** A strip as this sheet shows it: every tick, and the labels whose ticks the sheet keeps. */
function stripItems(gauge: LaidGauge, view: SheetView, placed: PlacedStrip): (Stroke | Words)[] {
  const { strip } = placed;
  const frame = frameOf(view, placed);
  const { at } = frame;
  const [first, ...others] = outlineOf(placed).map(({ from, to }) => [
    onSheet(view, from),
    onSheet(view, to),
  ]);
  const { labels, middles = [] } = labelsOn(gauge, placed, view.sheet);
  return [
    polyline('cut', first ?? []),
    ...others.map((side) => polyline('rule', side)),
    ...strip.ticks.map(({ station, what }) =>
      polyline(what === 'station' ? 'rule' : 'mark', [at(station, 0), at(station, TICK_MM)]),
    ),
    ...middles.flatMap((middle, i) => {
      const label = labels[i]!;
      return [
        polyline('station', [at(label.tick.station, TICK_MM), at(middle, LEAD_MM)]),
        ...(gauge.style.turned ? turnedLabel(placed, label, middle, frame) : flatLabel(label, middle, frame)),
      ];
    }),
    ...band(gauge, view, placed, frame),
  ];
}

function flatLabel({ what, station, offset }: GaugeLabel, middle: number, frame: Frame): (Stroke | Words)[] {
  const half = BOX_MM.width / 2;
  const [boxTop, boxBottom] = [FLAT_WORDS_MM + BOX_GAP_MM, FLAT_WORDS_MM + BOX_GAP_MM + BOX_MM.height];
  const line = (text: string, type: number, from: number): Words =>
    words(text, frame.at(middle, frame.base(from, from + type * CAPITALS)), type, 'middle');
  return [
    ...(what === '' ? [] : [line(what, WHAT_MM, LEAD_MM + 1.1)]),
    line(station, STATION_MM, LEAD_MM + 4.5),
    line(offset, OFFSET_MM, FLAT_WORDS_MM - 0.6 - OFFSET_MM * CAPITALS),
    box(frame, middle - half, boxTop, middle + half, boxBottom),
  ];
}

/** Upright, read from the right: the station at the tick, what it reads beyond it, then the box. */
function turnedLabel(
  { top, bottom }: PlacedStrip,
  label: GaugeLabel,
  middle: number,
  frame: Frame,
): (Stroke | Words)[] {
  const boxBottom = top - bottom - BAND_MM;
  const boxTop = boxBottom - TURNED_BOX_MM;
  const [near, far] = frame.flipped ? (['start', 'end'] as const) : (['end', 'start'] as const);
  const right = (type: number): number => middle + type * 0.3;
  return [
    words(turnedStation(label), frame.at(right(STATION_MM), LEAD_MM + 0.6), STATION_MM, near, Math.PI / 2),
    words(label.offset, frame.at(right(OFFSET_MM), boxTop - BOX_GAP_MM), OFFSET_MM, far, Math.PI / 2),
    box(frame, middle - TURNED_MM / 2 + 0.4, boxTop, middle + TURNED_MM / 2 - 0.4, boxBottom),
  ];
}

const box = ({ at }: Frame, left: number, top: number, right: number, bottom: number): Stroke =>
  polyline('station', [at(left, top), at(right, top), at(right, bottom), at(left, bottom), at(left, top)]);

const HEAD_MM = 2.2;
const ARROW_MM = 9;

/** Along the strip's lower end: which end it starts from, what it is, how to read it and what is good. */
function band(
  gauge: LaidGauge,
  { sheet, layout }: SheetView,
  { strip, top, bottom }: PlacedStrip,
  frame: Frame,
): (Stroke | Words)[] {
  const [low, high] = stretchOn(sheet, strip);
  const hasStart = low <= 0 && high > 0;
  const end = gauge.from === 'chord' ? 'start of the edge' : 'reference end';
  const { rule, name } = gauge.part;
  const which = `, ${strip.edge} · code ${layout.code}`;
  const depth = (row: 0 | 1): number => top - bottom - BAND_MM + 2 + row * BAND_TYPE_MM * LEADING;
  const roomFrom = (left: number): number => high - left - 2;
  // A long name gives way, never which edge it is.
  const said = (before: string, left: number): string =>
    before + fitted(name, BAND_TYPE_MM, roomFrom(left) - textWidth(before + which, BAND_TYPE_MM)) + which;
  const line = (text: string, left: number, row: 0 | 1): Words[] => {
    const kept = fitted(text, BAND_TYPE_MM, roomFrom(left));
    if (textWidth(kept, BAND_TYPE_MM) > roomFrom(left)) return [];
    const down = frame.base(depth(row), depth(row) + BAND_TYPE_MM * CAPITALS);
    return [words(kept, frame.at(left, down), BAND_TYPE_MM)];
  };
  // Read from above: the first line is the farther from the working edge where that lies below.
  const [first, second] = frame.flipped ? ([1, 0] as const) : ([0, 1] as const);
  return [
    ...(hasStart ? arrow(frame, depth(first) + (BAND_TYPE_MM * CAPITALS) / 2) : []),
    ...(hasStart
      ? line(said(`${end} · `, ARROW_MM + 2), ARROW_MM + 2, first)
      : line(said('', low + 2), low + 2, first)),
    ...line(
      `offsets square off the solid edge, ${rule.unit} · good within ${plusMinus(gauge.tolerance, rule)} · boxes: as measured`,
      low + 2,
      second,
    ),
  ];
}

/** To station 0, the tip on it. */
function arrow({ at }: Frame, down: number): Stroke[] {
  const tip = at(0.4, down);
  const barb = (side: 1 | -1): Point => at(HEAD_MM, down + (side * HEAD_MM) / 2);
  return [polyline('mark', [at(ARROW_MM, down), tip]), polyline('mark', [barb(1), tip, barb(-1)])];
}
