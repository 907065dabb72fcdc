import type { Check, Deviation } from '../check/check-edge.ts';
import { direction, dot, leftOf, type Point, subtract } from '../curves/point.ts';
import { mapPath } from '../curves/segment.ts';
import { edgePath } from '../part/edge.ts';
import type { Part } from '../part/part.ts';
import type { Rule } from '../units/rule.ts';
import { offLabels } from './check-labels.ts';
import { type Drawing, type Item, polyline, words } from './drawing.ts';
import { SCREEN, widthOf } from './picture-labels.ts';
import {
  INNER_MM,
  LABEL_MM,
  LINE_MM,
  noteLines,
  SIDE_MM,
  TEXT_MM,
  TITLE_MM,
  WIDTH_MM,
} from './picture-page.ts';
import { bare, printed } from './setting-out.ts';

/** A tall part is drawn smaller rather than let the picture grow far higher than it is wide. */
const MOST_HEIGHT_MM = 120;
/** The worst reading, or the tolerance, stands off so far. */
const WORST_MM = 22;
/** No enlarging beyond this: what is off less than a hair shall look small. */
const MOST_ENLARGED = 100;

/** How the picture shows a place of the base line's frame: the part at one scale, what is off it at another. */
interface View {
  readonly factor: number;
  readonly enlarged: number;
  readonly shift: Point;
  readonly floor: number;
  readonly height: number;
}

/**
 * What the sawn part is off its line, enlarged: the edge as it shall be, a tooth at every station measured, a
 * line along the tips, and dashed the tolerance to both sides. Stations run to the right, offsets up.
 */
export function composeCheckPicture(part: Part, check: Check): Drawing {
  const { rule } = part;
  const readings = check.readings.toSorted((a, b) => a.station - b.station);
  const view = viewOf(check, readings);
  const at = (each: Deviation, off: number): Point => ({
    x: each.station * view.factor + view.shift.x,
    y: each.design * view.factor + view.shift.y + off * view.enlarged,
  });
  const along = (style: 'saw' | 'mark', off: (each: Deviation) => number): Item =>
    polyline(
      style,
      readings.map((each) => at(each, off(each))),
    );
  const items: Item[] = [
    ...titleItems(part, check, view),
    lineItem(check, view),
    along('saw', () => check.tolerance),
    along('saw', () => -check.tolerance),
    ...readings.map((each) => polyline('station', [at(each, 0), at(each, each.deviation)])),
    along('mark', ({ deviation }) => deviation),
    ...stationLabels(readings, view, rule),
    ...offLabels(
      readings,
      readings.map((each) => at(each, each.deviation)),
      check.tolerance,
      rule,
    ),
  ];
  return { width: WIDTH_MM, height: view.height, items };
}

function viewOf(check: Check, readings: readonly Deviation[]): View {
  const ends = check.line.runs.flatMap(({ from, to }) => [from, to]).map((p) => inBase(check, p));
  const stations = [...ends.map(({ x }) => x), ...readings.map(({ station }) => station)];
  const offsets = [...ends.map(({ y }) => y), ...readings.map(({ design }) => design)];
  const [left, right] = [Math.min(...stations), Math.max(...stations)];
  const [low, high] = [Math.min(...offsets), Math.max(...offsets)];
  const factor = Math.min(INNER_MM / (right - left), MOST_HEIGHT_MM / Math.max(high - low, Number.EPSILON));
  const enlarged = Math.min(WORST_MM / Math.max(check.worst, check.tolerance), MOST_ENLARGED);
  const [below, above] = [-1, 1].map((way) => beyond(check, readings, enlarged, way));
  const bottom = SIDE_MM + 2 * LABEL_MM + below! + LABEL_MM * 2;
  return {
    factor,
    enlarged,
    shift: { x: (WIDTH_MM - (left + right) * factor) / 2, y: bottom - low * factor },
    floor: SIDE_MM,
    height: bottom + (high - low) * factor + above! + 3 * LABEL_MM + TITLE_MM + 2 * LINE_MM + SIDE_MM,
  };
}

/** How far the band or a tooth stands out, mm of the picture: above the line, or below it. */
const beyond = (check: Check, readings: readonly Deviation[], enlarged: number, way: number): number =>
  readings.reduce((most, { deviation }) => Math.max(most, way * deviation), check.tolerance) * enlarged;

function inBase({ base }: Check, p: Point): Point {
  const way = direction(base.angle);
  const out = subtract(p, base.origin);
  return { x: dot(out, way), y: dot(out, leftOf(way)) };
}

function lineItem(check: Check, { factor, shift }: View): Item {
  const way = direction(check.base.angle);
  const origin = inBase(check, { x: 0, y: 0 });
  const path = edgePath(check.line);
  const matrix = [
    way.x * factor,
    -way.y * factor,
    way.y * factor,
    way.x * factor,
    origin.x * factor + shift.x,
    origin.y * factor + shift.y,
  ] as const;
  return { type: 'stroke', style: 'cut', path: mapPath(path, matrix) };
}

function titleItems(part: Part, check: Check, { factor, enlarged, height }: View): Item[] {
  const times = Number((enlarged / factor).toPrecision(2));
  const told =
    `what is off the line is drawn about ${times} times as large as the part; ` +
    `dashed: ${printed(check.tolerance, part.rule)} to each side, ` +
    `beyond which half a graduation is left to reading the rule; ${check.verdict}`;
  const top = height - SIDE_MM - TITLE_MM;
  return [
    words(`${part.name}, ${check.edge}`, { x: SIDE_MM, y: top + TITLE_MM * 0.3 }, TITLE_MM),
    ...noteLines(told).map((line, i) => words(line, { x: SIDE_MM, y: top - LINE_MM * (0.7 + i) }, TEXT_MM)),
  ];
}

/** The stations measured, under the picture; one that would run into the last is left out. */
function stationLabels(readings: readonly Deviation[], { factor, shift, floor }: View, rule: Rule): Item[] {
  let free = Number.NEGATIVE_INFINITY;
  return readings.flatMap(({ station }): Item[] => {
    const label = bare(station, rule);
    const spot = { x: station * factor + shift.x, y: floor };
    const half = widthOf(label, SCREEN) / 2;
    if (spot.x - half < free) return [];
    free = spot.x + half + LABEL_MM / 2;
    return [words(label, spot, LABEL_MM, 'middle')];
  });
}
