import type { Deviation, EdgeCheck } from '../../check/check-edge.ts';
import { maxAbs } from '../../check/fit/rigid-fit.ts';
import type { Affine } from '../../curves/geometry/affine.ts';
import { boundsOf } from '../../curves/geometry/bounds.ts';
import { direction, type Point, point } from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import { type BaseLine, toBaseLine } from '../../part/offsets.ts';
import type { Part } from '../../part/part.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { lengthWithoutUnit, printedLength, unitWord } from '../drawing/dimensions.ts';
import { type Drawing, type Item, polyline, words } from '../drawing/drawing.ts';
import { deviationLabels } from '../labels/deviation-labels.ts';
import { SCREEN_FONT, widthInFont } from '../labels/place-labels.ts';
import { fitScale, framePicture, PICTURE_LABEL_MM } from './picture-frame.ts';
import type { PictureView } from './picture-view.ts';

const MAX_HEIGHT_MM = 120;
const MAX_DEVIATION_HEIGHT_MM = 22;
const MAX_ENLARGEMENT = 100;

/** The errors of a sawn part, and of the second of a pair, enlarged, with the tolerance to both sides. */
export function composeCheckPicture(part: Part, check: EdgeCheck, second?: readonly Deviation[]): Drawing {
  const [first, other] = [byStation(check.readings), byStation(second ?? [])];
  const readings = [...first, ...other];
  const { base, line, tolerance } = check;
  const bounds = boundsOf([
    ...line.runs.flatMap(({ from, to }) => [from, to]).map((end) => toBaseLine(end, base)),
    ...readings.map(({ station, design }) => point(station, design)),
  ]);
  const factor = fitScale(bounds, MAX_HEIGHT_MM);
  const worst = Math.max(maxAbs(readings.map(({ square }) => square)), tolerance);
  const enlargement = Math.min(MAX_DEVIATION_HEIGHT_MM / worst, MAX_ENLARGEMENT);
  const reach = (way: 1 | -1): number =>
    readings.reduce((most, { square }) => Math.max(most, way * square), tolerance) * enlargement;
  return framePicture(part, {
    bounds,
    factor,
    below: 4 * PICTURE_LABEL_MM + reach(-1),
    above: reach(1) + 3 * PICTURE_LABEL_MM,
    title: `${typesetMeasures(part.name)}, ${check.edge}`,
    head: headText(part, check, enlargement / factor, other.length > 0),
    draw: (view, { floor }) => {
      const at = ({ station, design }: Deviation, off: number): Point => {
        const { x, y } = view.at(point(station, design));
        return point(x, y + off * enlargement);
      };
      const along = (list: readonly Deviation[], off?: number): Point[] =>
        list.map((each) => at(each, off ?? each.square));
      const tips = along(first);
      return [
        { type: 'stroke', style: 'cut', path: view.path(transformPath(line.path, toBaseLineMatrix(base))) },
        polyline('saw', along(first, tolerance)),
        polyline('saw', along(first, -tolerance)),
        ...first.map((each) => polyline('station', [at(each, 0), at(each, each.square)])),
        polyline('mark', tips),
        ...(other.length > 0 ? [polyline('parallel', along(other))] : []),
        ...stationLabels(first, view, floor),
        ...deviationLabels(first, tips, check, part),
      ];
    },
  });
}

function toBaseLineMatrix(base: BaseLine): Affine {
  const { x: cos, y: sin } = direction(base.angle);
  const { x, y } = toBaseLine(point(0, 0), base);
  return [cos, -sin, sin, cos, x, y];
}

const byStation = (readings: readonly Deviation[]): Deviation[] =>
  readings.toSorted((a, b) => a.station - b.station);

const headText = (part: Part, check: EdgeCheck, enlarged: number, isPair: boolean): string =>
  `Errors are drawn about ${Number(enlarged.toPrecision(2))} times as large as the part. ` +
  `Dashed: tolerance ± ${printedLength(check.tolerance, part.rule)}. ` +
  `Half a graduation more is allowed for reading the rule. Result: ${check.verdict}. ` +
  `${isPair ? 'Short dashes: the second part of the pair. ' : ''}Stations in ${unitWord(part.rule)}.`;

function stationLabels(readings: readonly Deviation[], { part, at }: PictureView, y: number): Item[] {
  let free = Number.NEGATIVE_INFINITY;
  return readings.flatMap(({ station }): Item[] => {
    const label = lengthWithoutUnit(station, part.rule);
    const { x } = at(point(station, 0));
    const half = widthInFont(label, SCREEN_FONT) / 2;
    if (x - half < free) return [];
    free = x + half + PICTURE_LABEL_MM / 2;
    return [words(label, point(x, y), PICTURE_LABEL_MM, 'middle')];
  });
}
