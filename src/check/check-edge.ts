import { direction, dot } from '../curves/geometry/point.ts';
import { figuresOf } from '../curves/measurements.ts';
import { type BaseLine, fromBaseLine, shoulderCorners } from '../part/offsets.ts';
import type { Part, PartEdge } from '../part/part.ts';
import { firstOf } from '../units/checked.ts';
import { Fault, Faults, type ShowLength } from '../units/fault.ts';
import { graduationMm } from '../units/graduation.ts';
import type { Rule } from '../units/rule.ts';
import { designOffsetAt, outwardSign, sawLineOfEdge } from './design-line.ts';
import { fitRigid, type Misfit, misfitOf, type RigidFit, signedDistanceFrom } from './fit/rigid-fit.ts';
import { type MeasuredApex, measuredApex } from './measured-apex.ts';
import { assertReadings, faultAtReading, type StationReading } from './readings/read-readings.ts';
import { maxReadingError, readingSigma } from './readings/reading-error.ts';
import { readingsInOtherUnit } from './suspect-unit.ts';

export interface Deviation {
  readonly station: number;
  readonly measured: number;
  readonly design: number;
  readonly deviation: number;
  /** The deviation square to the line, mm: less than along the offset where the line climbs. */
  readonly square: number;
  /** The same, positive outward: more wood than the design. */
  readonly proud: number;
  /** How steeply the line climbs there along its base, radians; level on a shoulder, where the rule stops. */
  readonly climb: number;
  readonly verdict: StationVerdict;
}

type EndDeviation = Pick<Deviation, 'station' | 'proud'>;

/** `true` is on the line, `high` has wood to remove, `shy` is inside a saw line, `lost` is inside the finished line. */
export type StationVerdict = 'true' | 'high' | 'shy' | 'lost';

export interface EdgeCheck extends Misfit {
  readonly edge: string;
  readonly line: PartEdge;
  readonly base: BaseLine;
  readonly tolerance: number;
  readonly readings: readonly Deviation[];
  readonly bestFit: RigidFit;
  readonly endDeviations: readonly [EndDeviation, EndDeviation];
  readonly apexes: readonly MeasuredApex[];
  readonly verdict: 'within' | 'outside';
}

export interface CheckOptions {
  readonly base: BaseLine;
  readonly tolerance: number;
  readonly beforeSanding: boolean;
}

/**
 * A reading is off only by more than the tolerance and half a graduation, the largest error of reading the rule.
 * @throws Fault `readings.none`, `readings.not-finite`, `check.other-unit`; Faults `check.no-such-station`
 */
export function checkEdge(
  part: Part,
  edge: PartEdge,
  readings: readonly StationReading[],
  { base, tolerance, beforeSanding }: CheckOptions,
): EdgeCheck {
  assertReadings(readings);
  const { rule } = part;
  const line = beforeSanding ? sawLineOfEdge(part, edge) : edge;
  const outside = outwardSign(edge);
  const spare = beforeSanding ? part.sawAllowance : 0;
  const limit = tolerance + maxReadingError(rule);
  const near = graduationMm(rule);
  const distanceOf = signedDistanceFrom(line.pieces);
  const corners = shoulderCorners(line, base);
  const deviations: Deviation[] = [];
  const beyond: Fault[] = [];
  for (const reading of readings) {
    const { station, offset: measured } = reading;
    const design = designOffsetAt(line, station, measured, base, { near, slack: spare + near });
    if (design === undefined) beyond.push(noSuchStation(line, reading));
    else {
      const deviation = measured - design;
      const { distance, normal } = distanceOf(fromBaseLine({ x: station, y: measured }, base));
      const square = Math.sign(deviation) * Math.min(Math.abs(distance), Math.abs(deviation));
      const proud = outside * square;
      const isOnShoulder = corners.some((corner) => Math.abs(corner.station - station) <= near);
      const climb = isOnShoulder ? 0 : Math.asin(Math.abs(dot(normal, direction(base.angle))));
      const verdict = stationVerdict(proud, limit, spare);
      deviations.push({ station, measured, design, deviation, square, proud, climb, verdict });
    }
  }
  const [first, ...rest] = beyond;
  if (first)
    throw readingsInOtherUnit(line, readings, base, rule)
      ? faultAtReading(firstOf(readings), otherUnit(line, rule))
      : new Faults([first, ...rest]);
  const misfit = misfitOf(deviations.map(({ square }) => square));
  const fit = fitRigid(line.pieces, readings, base);
  const stations = readings.map(({ station }) => station);
  const endDeviation = (station: number): EndDeviation => {
    return { station, proud: outside * (fit.shift + station * Math.tan(fit.turn)) };
  };
  return {
    edge: edge.name,
    line,
    base,
    tolerance,
    readings: deviations,
    ...misfit,
    bestFit: fit,
    endDeviations: [endDeviation(Math.min(...stations)), endDeviation(Math.max(...stations))],
    apexes: beforeSanding ? [] : measuredApexes(edge, readings, base, rule),
    verdict: misfit.worst > limit ? 'outside' : 'within',
  };
}

const NAMES = { in: 'inches', mm: 'millimeters' } as const;

const otherUnit = ({ name }: PartEdge, { unit }: Rule): Fault => {
  const other = unit === 'in' ? 'mm' : 'in';
  return new Fault(
    'check.other-unit',
    `in ${NAMES[unit]} the stations are far past the ends of the edge "${name}", and in ${NAMES[other]} all fit. ` +
      `Write the unit with each reading, or name the columns of a file station_${other}, offset_${other}.`,
  );
};

function stationVerdict(proud: number, limit: number, spare: number): StationVerdict {
  if (proud > limit) return 'high';
  if (proud >= -limit) return 'true';
  return proud < -limit - spare ? 'lost' : 'shy';
}

function noSuchStation({ name }: PartEdge, reading: StationReading): Fault {
  const problem = (mm: ShowLength): string =>
    `the edge "${name}" has no station ${mm(reading.station)}. Measure between its ends, and check the unit.`;
  return faultAtReading(reading, new Fault('check.no-such-station', problem));
}

/** A reading within one graduation of a shoulder may belong to the run on either side, so it counts for neither. */
function measuredApexes(edge: PartEdge, readings: readonly StationReading[], base: BaseLine, rule: Rule) {
  const corners = shoulderCorners(edge, base);
  const clear = readings.filter(({ station }) =>
    corners.every((corner) => Math.abs(corner.station - station) > graduationMm(rule)),
  );
  return edge.runs.flatMap((run): MeasuredApex[] => {
    const { apex } = figuresOf(run);
    const found = apex && measuredApex(run, apex, clear, base, readingSigma(rule));
    return found ? [found] : [];
  });
}
