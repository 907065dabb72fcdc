import type { Check, Deviation } from '../../check/check-edge.ts';
import { worstOf } from '../../check/fit/rigid-fit.ts';
import { direction, type Point } from '../../curves/geometry/point.ts';
import { mapPath } from '../../curves/geometry/transform.ts';
import { edgePath } from '../../part/edge.ts';
import { placeAlong } from '../../part/offsets.ts';
import type { Part } from '../../part/part.ts';
import type { Rule } from '../../units/rule.ts';
import { bare, printed } from '../drawing/dimensions.ts';
import { type Drawing, type Item, type LineStyle, polyline, words } from '../drawing/drawing.ts';
import { offLabels } from '../labels/deviation-labels.ts';
import { SCREEN, widthOf } from '../labels/picture-labels.ts';
import { INNER_MM, LABEL_MM, pictureLines, pictureSheet, SIDE_MM, WIDTH_MM } from './picture-frame.ts';

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
  readonly ceiling: number;
}

/**
 * What the sawn part is off its line, enlarged: the edge as it shall be, a tooth at every station measured, a
 * line along the tips, and dashed the tolerance to both sides; in short dashes, a line along what the second of a
 * pair is off. Stations run to the right, offsets up.
 */
export function composeCheckPicture(part: Part, check: Check, second: readonly Deviation[] = []): Drawing {
  const { rule } = part;
  const [first, other] = [inOrder(check.readings), inOrder(second)];
  const view = viewOf(check, [...first, ...other]);
  const at = (each: Deviation, off: number): Point => ({
    x: each.station * view.factor + view.shift.x,
    y: each.design * view.factor + view.shift.y + off * view.enlarged,
  });
  const along = (style: LineStyle, readings: readonly Deviation[], off: (each: Deviation) => number): Item =>
    polyline(
      style,
      readings.map((each) => at(each, off(each))),
    );
  const head = headLines(part, check, view, other);
  const tips = first.map((each) => at(each, each.deviation));
  return pictureSheet({ title: `${part.name}, ${check.edge}`, head, foot: [] }, view.ceiling, [
    lineItem(check, view),
    along('saw', first, () => check.tolerance),
    along('saw', first, () => -check.tolerance),
    ...first.map((each) => polyline('station', [at(each, 0), at(each, each.deviation)])),
    along('mark', first, ({ deviation }) => deviation),
    ...(other.length > 0 ? [along('parallel', other, ({ deviation }) => deviation)] : []),
    ...stationLabels(first, view, rule),
    ...offLabels(first, tips, check.tolerance, rule),
  ]);
}

const inOrder = (readings: readonly Deviation[]): Deviation[] =>
  readings.toSorted((a, b) => a.station - b.station);

function viewOf(check: Check, readings: readonly Deviation[]): View {
  const ends = check.line.runs.flatMap(({ from, to }) => [from, to]).map((p) => placeAlong(p, check.base));
  const stations = [...ends.map(({ x }) => x), ...readings.map(({ station }) => station)];
  const offsets = [...ends.map(({ y }) => y), ...readings.map(({ design }) => design)];
  const [left, right] = [Math.min(...stations), Math.max(...stations)];
  const [low, high] = [Math.min(...offsets), Math.max(...offsets)];
  const factor = Math.min(INNER_MM / (right - left), MOST_HEIGHT_MM / Math.max(high - low, Number.EPSILON));
  const worst = worstOf(readings.map(({ deviation }) => deviation));
  const enlarged = Math.min(WORST_MM / Math.max(worst, check.tolerance), MOST_ENLARGED);
  const [below, above] = [-1, 1].map((way) => beyond(check, readings, enlarged, way));
  const bottom = SIDE_MM + 2 * LABEL_MM + below! + LABEL_MM * 2;
  return {
    factor,
    enlarged,
    shift: { x: (WIDTH_MM - (left + right) * factor) / 2, y: bottom - low * factor },
    floor: SIDE_MM,
    ceiling: bottom + (high - low) * factor + above! + 3 * LABEL_MM,
  };
}

/** How far the band or a tooth stands out, mm of the picture: above the line, or below it. */
const beyond = (check: Check, readings: readonly Deviation[], enlarged: number, way: number): number =>
  readings.reduce((most, { deviation }) => Math.max(most, way * deviation), check.tolerance) * enlarged;

function lineItem(check: Check, { factor, shift }: View): Item {
  const way = direction(check.base.angle);
  const origin = placeAlong({ x: 0, y: 0 }, check.base);
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

function headLines(
  part: Part,
  check: Check,
  { factor, enlarged }: View,
  second: readonly Deviation[],
): string[] {
  const times = Number((enlarged / factor).toPrecision(2));
  return pictureLines(
    `what is off the line is drawn about ${times} times as large as the part; ` +
      `dashed: ${printed(check.tolerance, part.rule)} to each side, ` +
      `beyond which half a graduation is left to reading the rule: it lies ${check.verdict}` +
      `${second.length > 0 ? '; short dashes: the second of the pair' : ''}; stations in ${part.rule.unit === 'in' ? 'inches' : 'mm'}`,
  );
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
