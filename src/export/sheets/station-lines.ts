import { type Box, boxOf, grown, overlap } from '../../curves/geometry/bounds.ts';
import { passes } from '../../curves/geometry/flatten.ts';
import { add, distance, type Point, point, scale } from '../../curves/geometry/point.ts';
import { chordOf } from '../../part/finished-line.ts';
import { cornersOf, isPinned } from '../../part/landmarks.ts';
import { offsetsBeside } from '../../part/offsets.ts';
import type { Landmark, Part } from '../../part/part.ts';
import { offsetWords, printed } from '../drawing/dimensions.ts';
import { circle, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { LEADING, textWidth } from '../drawing/text-width.ts';
import { boxAt, type Room } from '../labels/free-space.ts';
import { type Named, type Spot, takeNamed } from '../labels/place-labels.ts';
import { holds, offsetsGrow, onSheet, type SheetView } from './sheet-context.ts';

/** A station line runs this far past the edges it measures, mm. */
const PAST_MM = 5;

/** Half a tick at an apex or a join, and the ring round a nail or pin, mm. */
const TICK_MM = 4;
const PIN_RADIUS_MM = 1.6;

const LABEL_MM = 3.2;

/** A landmark this close to a station, mm, makes a label of the station's own superfluous. */
const SAME_MM = 0.5;

/** Station lines: square to the reference line, from edge to edge or from chord to curve. */
export function stationLines(view: SheetView): Stroke[] {
  return view.setting.stations.flatMap(({ station }) => {
    const offsets = offsetsAcross(view.part, station);
    if (offsets.length === 0) return [];
    const [low, high] = [Math.min(...offsets) - PAST_MM, Math.max(...offsets) + PAST_MM];
    const from = onSheet(view, point(station, low));
    const to = onSheet(view, point(station, high));
    return passes({ from, to }, view.sheet.window) ? [polyline('station', [from, to])] : [];
  });
}

/** The offsets of the edges at a station, both of a shoulder; on a line pattern also that of the chord. */
export function offsetsAcross({ edges, shape }: Part, station: number): number[] {
  const known = edges.flatMap((edge) => offsetsBeside(edge, station).map(({ offset }) => offset));
  const chord = chordOf(shape);
  if (!chord || known.length === 0) return known;
  const [from, to] = chord;
  return [...known, from.y + ((to.y - from.y) * (station - from.x)) / (to.x - from.x)];
}

/** Signs at apexes, nails, pins and joins, over the line they belong to; a shoulder is seen without. */
export function landmarkSigns(view: SheetView): Stroke[] {
  const up = scale(offsetsGrow(view), TICK_MM);
  return view.setting.landmarks.flatMap(({ what, at }) => {
    const centre = onSheet(view, at);
    if (what === 'end' || what === 'shoulder' || !holds(view.sheet.window, centre)) return [];
    if (isPinned(what)) return [circle('mark', centre, PIN_RADIUS_MM)];
    return [polyline('mark', [add(centre, scale(up, -1)), add(centre, up)])];
  });
}

interface Label {
  /** Where it may stand beside, the foremost first: a shoulder has two corners. */
  readonly feet: readonly Point[];
  readonly lines: readonly string[];
  /** Which way it stands off: with growing offsets or against them. */
  readonly side: 1 | -1;
  /** How far off its foot its sign reaches, mm. */
  readonly reach: number;
}

/** Labels of the landmarks, wherever they stand free. */
export const landmarkLabels = (view: SheetView, room: Room, named: Named): Item[] =>
  view.setting.landmarks
    .filter(({ what, at }) => what !== 'end' && isShown(view, at))
    .flatMap((landmark) => placeLabel(view, room, named, landmarkLabel(view.part, landmark)));

/** Whether this sheet, and no other, labels a place. */
const isShown = (view: SheetView, at: Point): boolean => holds(view.sheet.cell, onSheet(view, at));

/** Labels of the stations on every edge, but where a landmark's own label says the same. */
export function stationLabels(view: SheetView, room: Room, named: Named): Item[] {
  const { part, setting } = view;
  const marked = setting.landmarks.filter(({ what }) => what !== 'end');
  return setting.stations.flatMap(({ station, offsets }) =>
    offsets.flatMap((offset) => {
      if (offset === undefined) return [];
      const at = point(station, offset);
      if (!isShown(view, at) || marked.some((mark) => isIn(mark, at))) return [];
      return placeLabel(view, room, named, {
        feet: [at],
        lines: labelLines(part, 'at', { at }),
        side: sideOf(part, at),
        reach: PAST_MM,
      });
    }),
  );
}

/** Whether a place is that of a landmark, or one of a shoulder's corners. */
const isIn = (mark: Landmark, at: Point): boolean =>
  cornersOf(mark).some((corner) => distance(corner, at) < SAME_MM);

const landmarkLabel = (part: Part, mark: Landmark): Label => ({
  feet: cornersOf(mark),
  lines: labelLines(part, `${mark.what} at`, mark),
  side: sideOf(part, mark.at),
  reach: mark.what === 'shoulder' ? 0 : isPinned(mark.what) ? PIN_RADIUS_MM : TICK_MM,
});

const labelLines = ({ rule }: Part, what: string, mark: Pick<Landmark, 'at' | 'to'>): string[] => [
  `${what} ${printed(mark.at.x, rule)}`,
  `offset ${offsetWords(mark, (mm) => printed(mm, rule))}`,
];

/** Outside the part, or on the round side of a line pattern. */
function sideOf(part: Part, { x, y }: Point): 1 | -1 {
  const offsets = offsetsAcross(part, x);
  const middle = offsets.reduce((sum, one) => sum + one, 0) / Math.max(1, offsets.length);
  return y >= middle ? 1 : -1;
}

/** Every place that a label may name: the landmarks, and where stations meet the edges. */
export const placesOf = (view: SheetView): Box[] => [
  ...view.setting.landmarks
    .filter(({ what }) => what !== 'end')
    .flatMap((mark) => cornersOf(mark).map((corner) => boxOf([onSheet(view, corner)]))),
  ...view.setting.stations.flatMap(({ station, offsets }) =>
    offsets.flatMap((offset) =>
      offset === undefined ? [] : [boxOf([onSheet(view, point(station, offset))])],
    ),
  ),
];

/** How far off its point a label may stand, and how far to the side, mm. */
const AWAY_MM = [6, 9, 12, 16, 21, 27];
const ASIDE_MM = [0, 6, -6, 12, -12, 18, -18, 26, -26];
/** Between a sign and the end of the line to its label, mm. */
const SHORT_MM = 0.8;

function placeLabel(view: SheetView, room: Room, named: Named, label: Label): Item[] {
  const { lines, feet } = label;
  const width = Math.max(...lines.map((line) => textWidth(line, LABEL_MM))) + 1;
  const height = lines.length * LEADING * LABEL_MM;
  const own = boxOf(feet.map((foot) => onSheet(view, foot)));
  // A nail in a station's place is the same place, and so are a shoulder's corners.
  const isOwn = (place: Box): boolean => overlap(grown(place, SAME_MM), grown(own, SAME_MM));
  const naming = { own, rivals: placesOf(view).filter((place) => !isOwn(place)), across: false };
  const others = { ...named, things: named.things.filter((thing) => !isOwn(thing)) };
  const led = takeNamed(room, others, naming, labelSpots(view, label, width, height));
  if (!led) return [];
  const { box, lead } = led;
  return [
    ...lead,
    ...lines.map((line, i) => {
      const at = point((box.left + box.right) / 2, box.top - LABEL_MM * (0.85 + LEADING * i));
      return words(line, at, LABEL_MM, 'middle');
    }),
  ];
}

/** Where a label may stand: on its own side first, close before far. */
function labelSpots(view: SheetView, { feet, side, reach }: Label, width: number, height: number): Spot[] {
  const end = Math.max(reach, view.part.sawAllowance) + SHORT_MM;
  return [side, -side].flatMap((way) => {
    const off = scale(offsetsGrow(view), way);
    const half = (Math.abs(off.x) * width + Math.abs(off.y) * height) / 2;
    return feet.flatMap((place) => {
      const foot = onSheet(view, place);
      const tip = add(foot, scale(off, end));
      return AWAY_MM.flatMap((away) =>
        ASIDE_MM.map((aside) => {
          const beside = add(scale(off, away + half), point(off.y * aside, -off.x * aside));
          const middle = add(foot, beside);
          return { box: boxAt(point(middle.x - width / 2, middle.y - height / 2), width, height), tip, off };
        }),
      );
    });
  });
}
