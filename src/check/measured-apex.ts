import type { Curve } from '../curves/curve.ts';
import { angleFrom } from '../curves/geometry/point.ts';
import { JOIN_MM } from '../curves/geometry/tolerance.ts';
import { type Apex, apexOf } from '../curves/measurements.ts';
import { spline } from '../curves/simple/spline.ts';
import { undefinedOnFault } from '../curves/try-curve.ts';
import { type BaseLine, fromBaseLine, toBaseLine } from '../part/offsets.ts';
import { firstOf, lastOf } from '../units/checked.ts';
import { fairCurve, mergeStations } from './fit/smoothing-spline.ts';
import type { StationReading } from './readings/read-readings.ts';

export interface MeasuredApex {
  readonly design: Apex;
  readonly measured: Apex;
}

/** A parabola takes three stations; two more show where its top is. */
const MIN_APEX_STATIONS = 5;
/** A reading counts as near the apex within this share of the chord, to each side. */
const APEX_WINDOW = 0.4;

/** The apex of the fair curve through the readings near it; undefined if they are too few, or rise up to the last one. */
export function measuredApex(
  run: Curve,
  design: Apex,
  readings: readonly StationReading[],
  base: BaseLine,
  sigma: number,
): MeasuredApex | undefined {
  const chord: BaseLine = { origin: run.from, angle: angleFrom(run.from, run.to) };
  const [length, top] = [toBaseLine(run.to, chord).x, toBaseLine(design.at, chord).x];
  const near = readings
    .map(({ station: x, offset: y }) => toBaseLine(fromBaseLine({ x, y }, base), chord))
    .filter(({ x }) => x >= 0 && x <= length && Math.abs(x - top) <= APEX_WINDOW * length);
  const data = mergeStations(near, sigma);
  if (data.points.length < MIN_APEX_STATIONS) return undefined;
  const fair = fairCurve(data).points;
  const places = fair.map((p) => fromBaseLine(p, chord));
  const drawn = undefinedOnFault(() => spline(places, 'natural', 'natural'));
  const measured = drawn && apexOf(drawn.exact, run.from, run.to);
  if (!measured) return undefined;
  const { x } = toBaseLine(measured.at, chord);
  const inside = x > firstOf(fair).x + JOIN_MM && x < lastOf(fair).x - JOIN_MM;
  return inside ? { design, measured } : undefined;
}
