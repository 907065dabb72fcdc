import { type Box, boundsOf, boxesOverlap, inflate } from '../../curves/geometry/bounds.ts';
import { segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import { add, distance, type Point, point, scale } from '../../curves/geometry/point.ts';
import { cornersOf, isGivenPoint } from '../../part/landmarks.ts';
import type { Landmark } from '../../part/part.ts';
import { offsetsAtStation, offsetText, printedLength } from '../drawing/dimensions.ts';
import { circle, type Item, polyline, type Stroke, tick } from '../drawing/drawing.ts';
import { lineAcross } from '../drawing/part-view.ts';
import { type Block, boxAround } from '../labels/free-space.ts';
import { placeLabels, SHEET_LABEL, textBlock } from '../labels/place-labels.ts';
import { boxContains, type LabelledSheet, offsetDirection, type SheetContext } from './sheet-context.ts';

const STATION_PAST_MM = 5;
const TICK_MM = 4;
const POINT_RADIUS_MM = 1.6;
const SAME_PLACE_MM = 0.5;
const DISTANCES_MM = [6, 9, 12, 16, 21, 27];
const SIDEWAYS_MM = [0, 6, -6, 12, -12, 18, -18, 26, -26];
const LEADER_GAP_MM = 0.8;

export const stationLines = ({ part, dimensions, sheet, at }: SheetContext): Stroke[] =>
  dimensions.stations.flatMap(({ station }) => {
    const line = lineAcross(part, station, STATION_PAST_MM);
    if (!line) return [];
    const [from, to] = [at(line.from), at(line.to)];
    return segmentIntersectsBox({ from, to }, sheet.window) ? [polyline('station', [from, to])] : [];
  });

const labelledLandmarks = ({ dimensions }: SheetContext): Landmark[] =>
  dimensions.landmarks.filter(({ what }) => what !== 'end');

/** Signs at apexes, nails, points and joins, over the line they belong to; a shoulder is seen without. */
export function landmarkSigns(context: SheetContext): Stroke[] {
  const up = scale(offsetDirection(context), TICK_MM);
  return labelledLandmarks(context).flatMap(({ what, at }) => {
    const centre = context.at(at);
    if (what === 'shoulder' || !boxContains(context.sheet.window, centre)) return [];
    if (isGivenPoint(what)) return [circle('mark', centre, POINT_RADIUS_MM)];
    return [tick('mark', centre, up.x, up.y)];
  });
}

const stationPoints = ({ dimensions }: SheetContext): Point[] =>
  dimensions.stations.flatMap(({ station, offsets }) =>
    offsets.flatMap((offset) => (offset === undefined ? [] : [point(station, offset)])),
  );

export const stationAnchors = (context: SheetContext): Box[] =>
  [...labelledLandmarks(context).flatMap(cornersOf), ...stationPoints(context)].map((place) =>
    boundsOf([context.at(place)]),
  );

export const landmarkLabels = (sheet: LabelledSheet): Item[] =>
  placeLabels(
    sheet.space,
    labelledLandmarks(sheet)
      .filter(({ at }) => isLabelledHere(sheet, at))
      .map((mark) => {
        const reach = mark.what === 'shoulder' ? 0 : isGivenPoint(mark.what) ? POINT_RADIUS_MM : TICK_MM;
        return labelOf(sheet, `${mark.what} at`, mark, reach);
      }),
  );

/** Left out where a landmark's own label says the same. */
export function stationLabels(sheet: LabelledSheet): Item[] {
  const corners = labelledLandmarks(sheet).flatMap(cornersOf);
  const isMarked = (at: Point): boolean => corners.some((corner) => distance(corner, at) < SAME_PLACE_MM);
  const labelled = stationPoints(sheet).filter((at) => isLabelledHere(sheet, at) && !isMarked(at));
  const labels = labelled.map((at) => labelOf(sheet, 'at', { at }, STATION_PAST_MM));
  return placeLabels(sheet.space, labels);
}

const isLabelledHere = (sheet: SheetContext, at: Point): boolean =>
  boxContains(sheet.sheet.cell, sheet.at(at));

/** A label of a place, whose sign reaches so far, mm: on its own side of the part first, close before far. */
function labelOf(sheet: LabelledSheet, what: string, mark: Pick<Landmark, 'at' | 'to'>, reach: number) {
  const { rule, sawAllowance } = sheet.part;
  const feet = cornersOf(mark).map(sheet.at);
  const anchor = boundsOf(feet);
  const lines = [
    `${what} ${printedLength(mark.at.x, rule)}`,
    `offset ${offsetText(mark, (mm) => printedLength(mm, rule))}`,
  ];
  const end = Math.max(reach, sawAllowance) + LEADER_GAP_MM;
  const outward = scale(offsetDirection(sheet), sideOf(sheet, mark.at));
  return {
    anchor,
    competing: sheet.stationAnchors,
    // A nail at a station is the same place, and so are the corners of a shoulder.
    isSame: (other: Box) => boxesOverlap(inflate(other, SAME_PLACE_MM), inflate(anchor, SAME_PLACE_MM)),
    blocks: [textBlock(lines, SHEET_LABEL)],
    candidates: (block: Block) =>
      [outward, scale(outward, -1)].flatMap((normal) =>
        feet.flatMap((foot) => candidatesAlong(block, foot, normal, end)),
      ),
  };
}

/** Outside the part (1), or on the round side of a line pattern; else −1. */
function sideOf({ part }: SheetContext, { x, y }: Point): 1 | -1 {
  const offsets = offsetsAtStation(part, x);
  const middle = offsets.reduce((sum, one) => sum + one, 0) / Math.max(1, offsets.length);
  return y >= middle ? 1 : -1;
}

/** Off a foot, with leaders that end `end` mm from it. */
export function candidatesAlong({ width, height }: Block, foot: Point, normal: Point, end: number) {
  const half = (Math.abs(normal.x) * width + Math.abs(normal.y) * height) / 2;
  const tip = add(foot, scale(normal, end));
  return DISTANCES_MM.flatMap((away) =>
    SIDEWAYS_MM.map((aside) => {
      const beside = add(scale(normal, away + half), point(normal.y * aside, -normal.x * aside));
      return { box: boxAround(add(foot, beside), width, height), tip, normal };
    }),
  );
}
