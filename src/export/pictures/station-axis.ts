import { stationRange } from '../../part/edge.ts';
import { stationSpacing, stationsEvery } from '../../part/offsets.ts';
import { lengthWithoutUnit } from '../drawing/dimensions.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { type LabelFont, SCREEN_FONT, widthInFont } from '../labels/place-labels.ts';
import { PICTURE_LABEL_MM } from './picture-frame.ts';
import type { PictureView } from './picture-view.ts';

/** So many stations at most stand under the part. */
const MAX_TICKS = 12;
const TICK_MM = 2;

/** The reference line's stations, as on a rule laid under the part; where labels would run together some are left out. */
export function stationAxis({ part, at }: PictureView, y: number, face: LabelFont): Item[] {
  const { size } = face;
  const { edges, rule } = part;
  const [from, to] = stationRange(edges);
  const stations = stationsEvery(from, to, stationSpacing(to - from, rule.unit, MAX_TICKS));
  const x = (station: number): number => at({ x: station, y: 0 }).x;
  return [
    polyline('rule', [
      { x: x(from), y },
      { x: x(to), y },
    ]),
    ...stations.map((station) =>
      polyline('rule', [
        { x: x(station), y },
        { x: x(station), y: y + TICK_MM },
      ]),
    ),
    ...dropOverlappingLabels(
      stations,
      x,
      (station) => widthInFont(lengthWithoutUnit(station, rule), face),
      size,
    ).map((station) =>
      words(lengthWithoutUnit(station, rule), { x: x(station), y: y - size * 1.2 }, size, 'middle'),
    ),
  ];
}

/** The last station's label, and of the others those that stand clear of it and of the one before. */
function dropOverlappingLabels(
  stations: readonly number[],
  x: (station: number) => number,
  width: (station: number) => number,
  white: number,
): number[] {
  const last = stations.at(-1)!;
  const clear = (a: number, b: number): boolean =>
    Math.abs(x(b) - x(a)) > (width(a) + width(b)) / 2 + white / 2;
  const kept: number[] = [];
  for (const station of stations.slice(0, -1)) {
    const before = kept.at(-1);
    if (clear(station, last) && (before === undefined || clear(before, station))) kept.push(station);
  }
  return [...kept, last];
}

/** The same in a picture, with what its figures are over its end. */
export function titledStationAxis(view: PictureView, y: number): Item[] {
  const [, to] = stationRange(view.part.edges);
  const end = { x: view.at({ x: to, y: 0 }).x, y: y + PICTURE_LABEL_MM * 1.2 };
  return [
    ...stationAxis(view, y, SCREEN_FONT),
    words(`stations, ${view.part.rule.unit}`, end, PICTURE_LABEL_MM, 'end'),
  ];
}
