import { add, distance, type Point, point, scale } from '../curves/point.ts';
import type { Landmark, Part, PartEdge } from '../part/part.ts';
import { passes } from '../tiling/chords.ts';
import type { Rule } from '../units/rule.ts';
import { type Item, polyline, type Stroke, words } from './drawing.ts';
import { landmarks, mainStations, offsetAt, shown } from './pending.ts';
import { boxAt, type Room, strips, takeFirst } from './place.ts';
import { holds, offsetsGrow, onSheet, type SheetView } from './sheet-view.ts';
import { LEADING, textWidth } from './type.ts';

/** A station line runs this far past the edges it measures, mm. */
const PAST_MM = 5;

/** Half a tick at an apex, a pin or a join, mm. */
const TICK_MM = 4;
const PIN_RADIUS_MM = 1.6;

const LABEL_MM = 3.2;

/** A landmark this close to a station, mm, makes a label of the station's own superfluous. */
const SAME_MM = 0.5;

/** Station lines: square to the reference line, from edge to edge or from chord to curve. */
export function stationLines(view: SheetView): Stroke[] {
  return mainStations(view.part).flatMap((station) => {
    const offsets = offsetsAcross(view.part, station);
    if (offsets.length === 0) return [];
    const [low, high] = [Math.min(...offsets) - PAST_MM, Math.max(...offsets) + PAST_MM];
    const [from, to] = [onSheet(view, point(station, low)), onSheet(view, point(station, high))];
    return passes({ from, to }, view.sheet.window) ? [polyline('station', [from, to])] : [];
  });
}

function offsetsAcross({ edges, shape }: Part, station: number): number[] {
  const offsets = edges.map((edge) => offsetAt(edge, station)).filter((offset) => offset !== undefined);
  if (shape.type === 'closed' || offsets.length === 0) return offsets;
  const [from, to] = shape.chord;
  const along = (station - from.x) / (to.x - from.x);
  return [...offsets, from.y + (to.y - from.y) * along];
}

/** Signs at apexes, pins and joins, over the line they belong to. */
export function landmarkSigns(view: SheetView): Stroke[] {
  const up = offsetsGrow(view);
  return landmarks(view.part).flatMap(({ what, at }) => {
    const centre = onSheet(view, at);
    if (!holds(view.sheet.window, centre) || what === 'end') return [];
    const tick = polyline('mark', [add(centre, scale(up, -TICK_MM)), add(centre, scale(up, TICK_MM))]);
    if (what !== 'pin') return [tick];
    const ring: Stroke = {
      type: 'stroke',
      style: 'mark',
      path: [{ type: 'arc', centre, radius: PIN_RADIUS_MM, start: 0, sweep: 2 * Math.PI }],
      closed: true,
    };
    return [ring];
  });
}

interface Label {
  readonly at: Point;
  readonly lines: readonly [string, string];
  /** Which way it stands off: with growing offsets or against them. */
  readonly side: 1 | -1;
}

/** Labels of landmarks, then of stations, wherever they stand free. */
export function stationLabels(view: SheetView, room: Room): Item[] {
  const { part } = view;
  const marks = landmarks(part).filter(({ what }) => what !== 'end');
  const labels = [
    ...marks.map((mark) => landmarkLabel(mark, part)),
    ...part.edges.flatMap((edge) =>
      mainStations(part).flatMap((station) => stationLabel(edge, station, part)),
    ),
  ];
  const own = labels.filter(
    ({ at }, i) =>
      holds(view.sheet.cell, onSheet(view, at)) &&
      !labels.slice(0, i).some((other) => distance(other.at, at) < SAME_MM),
  );
  return own.flatMap((label) => placeLabel(view, room, label));
}

function stationLabel(edge: PartEdge, station: number, part: Part): Label[] {
  const offset = offsetAt(edge, station);
  if (offset === undefined) return [];
  const at = point(station, offset);
  return [
    {
      at,
      lines: [`at ${shown(station, part.rule)}`, offsetWords(offset, part.rule)],
      side: sideOf(part, at),
    },
  ];
}

const landmarkLabel = ({ what, at }: Landmark, part: Part): Label => ({
  at,
  lines: [`${what} at ${shown(at.x, part.rule)}`, offsetWords(at.y, part.rule)],
  side: sideOf(part, at),
});

const offsetWords = (offset: number, rule: Rule): string => `offset ${shown(offset, rule)}`;

/** Outside the part, or on the hollow's far side of a line pattern. */
function sideOf(part: Part, at: Point): 1 | -1 {
  const offsets = offsetsAcross(part, at.x);
  const middle = offsets.reduce((sum, offset) => sum + offset, 0) / Math.max(1, offsets.length);
  return at.y >= middle ? 1 : -1;
}

/** How far off its point a label may stand, mm, and how far to the side. */
const AWAY_MM = [6, 9, 12, 16, 20];
const ASIDE_MM = [0, 8, -8, 14, -14, 20, -20];

function placeLabel(view: SheetView, room: Room, { at, lines, side }: Label): Item[] {
  const [width, height] = [
    Math.max(...lines.map((line) => textWidth(line, LABEL_MM))) + 1,
    2 * LEADING * LABEL_MM,
  ];
  const point = onSheet(view, at);
  const boxes = [side, -side].flatMap((way) => {
    const off = scale(offsetsGrow(view), way);
    const reach = (Math.abs(off.x) * width + Math.abs(off.y) * height) / 2;
    return AWAY_MM.flatMap((away) =>
      ASIDE_MM.map((aside) => {
        const middle = add(point, add(scale(off, away + reach), { x: off.y * aside, y: -off.x * aside }));
        return boxAt({ x: middle.x - width / 2, y: middle.y - height / 2 }, width, height);
      }),
    );
  });
  const box = takeFirst(room, boxes);
  if (!box) return [];
  const middle = (box.left + box.right) / 2;
  return lines.map((line, i) =>
    words(line, { x: middle, y: box.top - LABEL_MM * (0.85 + LEADING * i) }, LABEL_MM, 'middle'),
  );
}

export const stationRoom = (lines: readonly Stroke[]) =>
  strips(
    lines.flatMap(({ path }) => path.flatMap((s) => (s.type === 'line' ? [{ from: s.from, to: s.to }] : []))),
    0.5,
  );
