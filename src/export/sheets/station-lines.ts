import { type Box, boundsOf } from '../../curves/geometry/bounds.ts';
import { segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import { add, type Point, point, scale } from '../../curves/geometry/point.ts';
import { cornersOf, isGivenPoint } from '../../part/landmarks.ts';
import type { Landmark } from '../../part/part.ts';
import { circle, polyline, type Stroke, tick } from '../drawing/drawing.ts';
import { lineAcross } from '../drawing/part-view.ts';
import { type Block, boxAround } from '../labels/free-space.ts';
import { boxContains, offsetDirection, type SheetContext } from './sheet-context.ts';

const STATION_PAST_MM = 5;
export const TICK_MM = 4;
export const POINT_RADIUS_MM = 1.6;
const DISTANCES_MM = [6, 9, 12, 16, 21, 27];
const SIDEWAYS_MM = [0, 6, -6, 12, -12, 18, -18, 26, -26];

export const stationLines = ({ part, dimensions, sheet, at }: SheetContext): Stroke[] =>
  dimensions.stations.flatMap(({ station }) => {
    const line = lineAcross(part, station, STATION_PAST_MM);
    if (!line) return [];
    const [from, to] = [at(line.from), at(line.to)];
    return segmentIntersectsBox({ from, to }, sheet.window) ? [polyline('station', [from, to])] : [];
  });

export const labelledLandmarks = ({ dimensions }: SheetContext): Landmark[] =>
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

export const stationPoints = ({ dimensions }: SheetContext): Point[] =>
  dimensions.stations.flatMap(({ station, offsets }) =>
    offsets.flatMap((offset) => (offset === undefined ? [] : [point(station, offset)])),
  );

export const stationAnchors = (context: SheetContext): Box[] =>
  [...labelledLandmarks(context).flatMap(cornersOf), ...stationPoints(context)].map((place) =>
    boundsOf([context.at(place)]),
  );

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
