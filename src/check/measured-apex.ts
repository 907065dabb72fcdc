import type { Curve } from '../curves/curve.ts';
import { angleFrom, cross, direction, dot, type Point, subtract } from '../curves/geometry/point.ts';
import { JOIN_MM } from '../curves/geometry/tolerance.ts';
import { type Apex, apexOf } from '../curves/measurements.ts';
import { spline } from '../curves/simple/spline.ts';
import { undefinedOnFault } from '../curves/try-curve.ts';
import type { BaseLine } from '../part/offsets.ts';
import { firstOf, lastOf } from '../units/checked.ts';
import { readingPoint } from './fit/rigid-fit.ts';
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

/**
 * The measured apex of a run: the place farthest from the run's chord on the fair curve through the readings near it.
 * Undefined with too few readings there, or where they rise up to the last of them.
 */
export function measuredApex(
  run: Curve,
  design: Apex,
  readings: readonly StationReading[],
  base: BaseLine,
  sigma: number,
): MeasuredApex | undefined {
  const angle = angleFrom(run.from, run.to);
  const way = direction(angle);
  const chord = dot(subtract(run.to, run.from), way);
  const top = dot(subtract(design.at, run.from), way);
  const local = readings.map((reading): Point => {
    const out = subtract(readingPoint(reading, base), run.from);
    return { x: dot(out, way), y: cross(way, out) };
  });
  const near = local.filter(({ x }) => x >= 0 && x <= chord && Math.abs(x - top) <= APEX_WINDOW * chord);
  const data = mergeStations(near, sigma);
  if (data.points.length < MIN_APEX_STATIONS) return undefined;
  const fair = fairCurve(data).points;
  const place = ({ x, y }: Point): Point => ({
    x: run.from.x + way.x * x - way.y * y,
    y: run.from.y + way.y * x + way.x * y,
  });
  const drawn = undefinedOnFault(() => spline(fair.map(place), 'natural', 'natural'));
  const measured = drawn && apexOf(drawn.exact, run.from, run.to);
  if (!measured) return undefined;
  const at = dot(subtract(measured.at, run.from), way);
  const inside = at > firstOf(fair).x + JOIN_MM && at < lastOf(fair).x - JOIN_MM;
  return inside ? { design, measured } : undefined;
}
