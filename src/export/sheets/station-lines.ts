import { type Box, boundsOf, boxesOverlap, inflate } from '../../curves/geometry/bounds.ts';
import { segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import { add, distance, type Point, point, scale } from '../../curves/geometry/point.ts';
import { cornersOf, isGivenPoint } from '../../part/landmarks.ts';
import { offsetsBeside } from '../../part/offsets.ts';
import type { Landmark, Part } from '../../part/part.ts';
import { patternChord } from '../../part/part-lines.ts';
import { offsetText, printedLength } from '../drawing/dimensions.ts';
import { circle, type Item, polyline, type Stroke, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth } from '../drawing/text-width.ts';
import { boxAt, type OccupiedSpace } from '../labels/free-space.ts';
import { type LabelCandidate, type LabelContext, placeLabel } from '../labels/place-labels.ts';
import { boxContains, offsetDirection, onSheet, type SheetContext } from './sheet-context.ts';

/** A station line runs this far past the edges it measures, mm. */
const STATION_PAST_MM = 5;

/** Half a tick at an apex or a join, and the ring round a nail or pin, mm. */
const TICK_MM = 4;
const PIN_RADIUS_MM = 1.6;

const LABEL_MM = 3.2;

/** A landmark this close to a station, mm, makes a label of the station's own superfluous. */
const SAME_PLACE_MM = 0.5;

/** Station lines: square to the reference line, from edge to edge or from chord to curve. */
export function stationLines(view: SheetContext): Stroke[] {
  return view.dimensions.stations.flatMap(({ station }) => {
    const offsets = offsetsAtStation(view.part, station);
    if (offsets.length === 0) return [];
    const [low, high] = [Math.min(...offsets) - STATION_PAST_MM, Math.max(...offsets) + STATION_PAST_MM];
    const from = onSheet(view, point(station, low));
    const to = onSheet(view, point(station, high));
    return segmentIntersectsBox({ from, to }, view.sheet.window) ? [polyline('station', [from, to])] : [];
  });
}

/** The offsets of the edges at a station, both of a shoulder; on a line pattern also that of the chord. */
export function offsetsAtStation({ edges, shape }: Part, station: number): number[] {
  const known = edges.flatMap((edge) => offsetsBeside(edge, station).map(({ offset }) => offset));
  const chord = patternChord(shape);
  if (!chord || known.length === 0) return known;
  const [from, to] = chord;
  return [...known, from.y + ((to.y - from.y) * (station - from.x)) / (to.x - from.x)];
}

/** Signs at apexes, nails, pins and joins, over the line they belong to; a shoulder is seen without. */
export function landmarkSigns(view: SheetContext): Stroke[] {
  const up = scale(offsetDirection(view), TICK_MM);
  return view.dimensions.landmarks.flatMap(({ what, at }) => {
    const centre = onSheet(view, at);
    if (what === 'end' || what === 'shoulder' || !boxContains(view.sheet.window, centre)) return [];
    if (isGivenPoint(what)) return [circle('mark', centre, PIN_RADIUS_MM)];
    return [polyline('mark', [add(centre, scale(up, -1)), add(centre, up)])];
  });
}

interface StationLabel {
  /** Where it may stand beside, the foremost first: a shoulder has two corners. */
  readonly feet: readonly Point[];
  readonly lines: readonly string[];
  /** Which way it stands off: with growing offsets or against them. */
  readonly side: 1 | -1;
  /** How far off its foot its sign reaches, mm. */
  readonly reach: number;
}

/** Labels of the landmarks, wherever they stand free. */
export const landmarkLabels = (view: SheetContext, room: OccupiedSpace, named: LabelContext): Item[] =>
  view.dimensions.landmarks
    .filter(({ what, at }) => what !== 'end' && isLabelledHere(view, at))
    .flatMap((landmark) => placeStationLabel(view, room, named, landmarkLabelOf(view.part, landmark)));

/** Whether this sheet, and no other, labels a place. */
const isLabelledHere = (view: SheetContext, at: Point): boolean =>
  boxContains(view.sheet.cell, onSheet(view, at));

/** Labels of the stations on every edge, but where a landmark's own label says the same. */
export function stationLabels(view: SheetContext, room: OccupiedSpace, named: LabelContext): Item[] {
  const { part, dimensions } = view;
  const marked = dimensions.landmarks.filter(({ what }) => what !== 'end');
  return dimensions.stations.flatMap(({ station, offsets }) =>
    offsets.flatMap((offset) => {
      if (offset === undefined) return [];
      const at = point(station, offset);
      if (!isLabelledHere(view, at) || marked.some((mark) => isAtLandmark(mark, at))) return [];
      return placeStationLabel(view, room, named, {
        feet: [at],
        lines: labelLines(part, 'at', { at }),
        side: sideOf(part, at),
        reach: STATION_PAST_MM,
      });
    }),
  );
}

/** Whether a place is that of a landmark, or one of a shoulder's corners. */
const isAtLandmark = (mark: Landmark, at: Point): boolean =>
  cornersOf(mark).some((corner) => distance(corner, at) < SAME_PLACE_MM);

const landmarkLabelOf = (part: Part, mark: Landmark): StationLabel => ({
  feet: cornersOf(mark),
  lines: labelLines(part, `${mark.what} at`, mark),
  side: sideOf(part, mark.at),
  reach: mark.what === 'shoulder' ? 0 : isGivenPoint(mark.what) ? PIN_RADIUS_MM : TICK_MM,
});

const labelLines = ({ rule }: Part, what: string, mark: Pick<Landmark, 'at' | 'to'>): string[] => [
  `${what} ${printedLength(mark.at.x, rule)}`,
  `offset ${offsetText(mark, (mm) => printedLength(mm, rule))}`,
];

/** Outside the part, or on the round side of a line pattern. */
function sideOf(part: Part, { x, y }: Point): 1 | -1 {
  const offsets = offsetsAtStation(part, x);
  const middle = offsets.reduce((sum, one) => sum + one, 0) / Math.max(1, offsets.length);
  return y >= middle ? 1 : -1;
}

/** Every place that a label may name: the landmarks, and where stations meet the edges. */
export const stationAnchors = (view: SheetContext): Box[] => [
  ...view.dimensions.landmarks
    .filter(({ what }) => what !== 'end')
    .flatMap((mark) => cornersOf(mark).map((corner) => boundsOf([onSheet(view, corner)]))),
  ...view.dimensions.stations.flatMap(({ station, offsets }) =>
    offsets.flatMap((offset) =>
      offset === undefined ? [] : [boundsOf([onSheet(view, point(station, offset))])],
    ),
  ),
];

/** How far off its point a label may stand, and how far to the side, mm. */
const DISTANCES_MM = [6, 9, 12, 16, 21, 27];
const SIDEWAYS_MM = [0, 6, -6, 12, -12, 18, -18, 26, -26];
/** Between a sign and the end of the line to its label, mm. */
const LEADER_GAP_MM = 0.8;

function placeStationLabel(
  view: SheetContext,
  room: OccupiedSpace,
  named: LabelContext,
  label: StationLabel,
): Item[] {
  const { lines, feet } = label;
  const width = Math.max(...lines.map((line) => textWidth(line, LABEL_MM))) + 1;
  const height = lines.length * LINE_SPACING * LABEL_MM;
  const own = boundsOf(feet.map((foot) => onSheet(view, foot)));
  // A nail in a station's place is the same place, and so are a shoulder's corners.
  const isOwn = (place: Box): boolean =>
    boxesOverlap(inflate(place, SAME_PLACE_MM), inflate(own, SAME_PLACE_MM));
  const naming = {
    anchor: own,
    competingAnchors: stationAnchors(view).filter((place) => !isOwn(place)),
    mayCrossLines: false,
  };
  const others = { ...named, anchors: named.anchors.filter((thing) => !isOwn(thing)) };
  const led = placeLabel(room, others, naming, stationLabelCandidates(view, label, width, height));
  if (!led) return [];
  const { box, leader } = led;
  return [
    ...leader,
    ...lines.map((line, i) => {
      const at = point((box.left + box.right) / 2, box.top - LABEL_MM * (0.85 + LINE_SPACING * i));
      return words(line, at, LABEL_MM, 'middle');
    }),
  ];
}

/** Where a label may stand: on its own side first, close before far. */
function stationLabelCandidates(
  view: SheetContext,
  { feet, side, reach }: StationLabel,
  width: number,
  height: number,
): LabelCandidate[] {
  const end = Math.max(reach, view.part.sawAllowance) + LEADER_GAP_MM;
  return [side, -side].flatMap((way) => {
    const off = scale(offsetDirection(view), way);
    const half = (Math.abs(off.x) * width + Math.abs(off.y) * height) / 2;
    return feet.flatMap((place) => {
      const foot = onSheet(view, place);
      const tip = add(foot, scale(off, end));
      return DISTANCES_MM.flatMap((away) =>
        SIDEWAYS_MM.map((aside) => {
          const beside = add(scale(off, away + half), point(off.y * aside, -off.x * aside));
          const middle = add(foot, beside);
          return {
            box: boxAt(point(middle.x - width / 2, middle.y - height / 2), width, height),
            tip,
            normal: off,
          };
        }),
      );
    });
  });
}
