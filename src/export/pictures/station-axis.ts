import { point } from '../../curves/geometry/point.ts';
import { stationRange } from '../../part/edge.ts';
import { stationSpacing, stationsEvery } from '../../part/offsets.ts';
import { lengthWithoutUnit, unitWord } from '../drawing/dimensions.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { type LabelFont, SCREEN_FONT, widthInFont } from '../labels/place-labels.ts';
import { PICTURE_LABEL_MM } from './picture-frame.ts';
import type { PictureView } from './picture-view.ts';

const MAX_TICKS = 12;
const TICK_MM = 2;

/** Stations as on a rule at height `y` mm; labels that would touch are left out. */
export function stationAxis({ part, at }: PictureView, y: number, font: LabelFont): Item[] {
  const { size } = font;
  const { edges, rule } = part;
  const [from, to] = stationRange(edges);
  const ticks = stationsEvery(from, to, stationSpacing(to - from, rule.unit, MAX_TICKS)).map((station) => {
    const text = lengthWithoutUnit(station, rule);
    return { x: at(point(station, 0)).x, text, width: widthInFont(text, font) };
  });
  const labelled = dropOverlapping(ticks, size);
  return [
    polyline('rule', [point(at(point(from, 0)).x, y), point(at(point(to, 0)).x, y)]),
    ...ticks.map(({ x }) => polyline('rule', [point(x, y), point(x, y + TICK_MM)])),
    ...labelled.map(({ x, text }) => words(text, point(x, y - size * 1.2), size, 'middle')),
  ];
}

/** The last tick, and those of the others whose labels are clear of it and of the one before. */
function dropOverlapping<T extends { readonly x: number; readonly width: number }>(
  ticks: readonly T[],
  white: number,
): T[] {
  const last = ticks.at(-1);
  if (!last) return [];
  const isClear = (a: T, b: T): boolean => Math.abs(b.x - a.x) > (a.width + b.width) / 2 + white / 2;
  const kept: T[] = [];
  for (const tick of ticks.slice(0, -1)) {
    const before = kept.at(-1);
    if (isClear(tick, last) && (before === undefined || isClear(before, tick))) kept.push(tick);
  }
  return [...kept, last];
}

/** The same with the unit over its end, at height `y` mm. */
export function titledStationAxis(view: PictureView, y: number): Item[] {
  const [, to] = stationRange(view.part.edges);
  const end = point(view.at(point(to, 0)).x, y + PICTURE_LABEL_MM * 1.2);
  return [
    ...stationAxis(view, y, SCREEN_FONT),
    words(`stations, ${unitWord(view.part.rule)}`, end, PICTURE_LABEL_MM, 'end'),
  ];
}
