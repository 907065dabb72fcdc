import type { Deviation, EdgeCheck } from '../../check/check-edge.ts';
import { maxAbs } from '../../check/fit/rigid-fit.ts';
import { direction, type Point } from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import { toBaseLine } from '../../part/offsets.ts';
import type { Part } from '../../part/part.ts';
import type { Rule } from '../../units/rule.ts';
import { lengthWithoutUnit, printedLength } from '../drawing/dimensions.ts';
import { type Drawing, type Item, type LineStyle, polyline, words } from '../drawing/drawing.ts';
import { deviationLabels } from '../labels/deviation-labels.ts';
import { SCREEN_FONT, widthInFont } from '../labels/place-labels.ts';
import {
  framePicture,
  PICTURE_INNER_MM,
  PICTURE_LABEL_MM,
  PICTURE_MARGIN_MM,
  PICTURE_WIDTH_MM,
  wrapPictureText,
} from './picture-frame.ts';

/** A tall part is drawn smaller rather than let the picture grow far higher than it is wide. */
const MAX_HEIGHT_MM = 120;
/** The worst reading, or the tolerance, stands off so far. */
const MAX_DEVIATION_HEIGHT_MM = 22;
/** No enlarging beyond this: what is off less than a hair shall look small. */
const MAX_ENLARGEMENT = 100;

/** How the picture shows a place of the base line's frame: the part at one scale, what is off it at another. */
interface CheckView {
  readonly factor: number;
  readonly deviationScale: number;
  readonly shift: Point;
  readonly floor: number;
  readonly ceiling: number;
}

/**
 * What the sawn part is off its line, enlarged: the edge as it shall be, a tooth at every station measured, a
 * line along the tips, and dashed the tolerance to both sides; in short dashes, a line along what the second of a
 * pair is off. Stations run to the right, offsets up.
 */
export function composeCheckPicture(
  part: Part,
  check: EdgeCheck,
  second: readonly Deviation[] = [],
): Drawing {
  const { rule } = part;
  const [first, other] = [byStation(check.readings), byStation(second)];
  const view = checkView(check, [...first, ...other]);
  const at = (each: Deviation, off: number): Point => ({
    x: each.station * view.factor + view.shift.x,
    y: each.design * view.factor + view.shift.y + off * view.deviationScale,
  });
  const along = (style: LineStyle, readings: readonly Deviation[], off: (each: Deviation) => number): Item =>
    polyline(
      style,
      readings.map((each) => at(each, off(each))),
    );
  const head = headLines(part, check, view, other);
  const tips = first.map((each) => at(each, each.deviation));
  return framePicture({ title: `${part.name}, ${check.edge}`, head, foot: [] }, view.ceiling, [
    edgeStroke(check, view),
    along('saw', first, () => check.tolerance),
    along('saw', first, () => -check.tolerance),
    ...first.map((each) => polyline('station', [at(each, 0), at(each, each.deviation)])),
    along('mark', first, ({ deviation }) => deviation),
    ...(other.length > 0 ? [along('parallel', other, ({ deviation }) => deviation)] : []),
    ...stationLabels(first, view, rule),
    ...deviationLabels(first, tips, check.tolerance, rule),
  ]);
}

const byStation = (readings: readonly Deviation[]): Deviation[] =>
  readings.toSorted((a, b) => a.station - b.station);

function checkView(check: EdgeCheck, readings: readonly Deviation[]): CheckView {
  const ends = check.line.runs.flatMap(({ from, to }) => [from, to]).map((p) => toBaseLine(p, check.base));
  const stations = [...ends.map(({ x }) => x), ...readings.map(({ station }) => station)];
  const offsets = [...ends.map(({ y }) => y), ...readings.map(({ design }) => design)];
  const [left, right] = [Math.min(...stations), Math.max(...stations)];
  const [low, high] = [Math.min(...offsets), Math.max(...offsets)];
  const factor = Math.min(
    PICTURE_INNER_MM / (right - left),
    MAX_HEIGHT_MM / Math.max(high - low, Number.EPSILON),
  );
  const worst = maxAbs(readings.map(({ deviation }) => deviation));
  const deviationScale = Math.min(
    MAX_DEVIATION_HEIGHT_MM / Math.max(worst, check.tolerance),
    MAX_ENLARGEMENT,
  );
  const [below, above] = [-1, 1].map((way) => deviationReach(check, readings, deviationScale, way));
  const bottom = PICTURE_MARGIN_MM + 2 * PICTURE_LABEL_MM + below! + PICTURE_LABEL_MM * 2;
  return {
    factor,
    deviationScale,
    shift: { x: (PICTURE_WIDTH_MM - (left + right) * factor) / 2, y: bottom - low * factor },
    floor: PICTURE_MARGIN_MM,
    ceiling: bottom + (high - low) * factor + above! + 3 * PICTURE_LABEL_MM,
  };
}

/** How far the band or a tooth stands out, mm of the picture: above the line, or below it. */
const deviationReach = (
  check: EdgeCheck,
  readings: readonly Deviation[],
  enlarged: number,
  way: number,
): number =>
  readings.reduce((most, { deviation }) => Math.max(most, way * deviation), check.tolerance) * enlarged;

function edgeStroke(check: EdgeCheck, { factor, shift }: CheckView): Item {
  const way = direction(check.base.angle);
  const origin = toBaseLine({ x: 0, y: 0 }, check.base);
  const path = check.line.path;
  const matrix = [
    way.x * factor,
    -way.y * factor,
    way.y * factor,
    way.x * factor,
    origin.x * factor + shift.x,
    origin.y * factor + shift.y,
  ] as const;
  return { type: 'stroke', style: 'cut', path: transformPath(path, matrix) };
}

function headLines(
  part: Part,
  check: EdgeCheck,
  { factor, deviationScale }: CheckView,
  second: readonly Deviation[],
): string[] {
  const times = Number((deviationScale / factor).toPrecision(2));
  return wrapPictureText(
    `what is off the line is drawn about ${times} times as large as the part; ` +
      `dashed: ${printedLength(check.tolerance, part.rule)} to each side, ` +
      `beyond which half a graduation is left to reading the rule: it lies ${check.verdict}` +
      `${second.length > 0 ? '; short dashes: the second of the pair' : ''}; stations in ${part.rule.unit === 'in' ? 'inches' : 'mm'}`,
  );
}

/** The stations measured, under the picture; one that would run into the last is left out. */
function stationLabels(
  readings: readonly Deviation[],
  { factor, shift, floor }: CheckView,
  rule: Rule,
): Item[] {
  let free = Number.NEGATIVE_INFINITY;
  return readings.flatMap(({ station }): Item[] => {
    const label = lengthWithoutUnit(station, rule);
    const spot = { x: station * factor + shift.x, y: floor };
    const half = widthInFont(label, SCREEN_FONT) / 2;
    if (spot.x - half < free) return [];
    free = spot.x + half + PICTURE_LABEL_MM / 2;
    return [words(label, spot, PICTURE_LABEL_MM, 'middle')];
  });
}
