import { figuresOf } from '../curves/measurements.ts';
import { type BaseLine, shoulderCorners } from '../part/offsets.ts';
import type { Part, PartEdge } from '../part/part.ts';
import { firstOf } from '../units/checked.ts';
import { Fault, Faults } from '../units/fault.ts';
import { graduationMm } from '../units/graduation.ts';
import type { Rule } from '../units/rule.ts';
import { designOffsetAt, outwardSign, sawLineOfEdge } from './design-line.ts';
import { fitRigid, maxAbs, type RigidFit, rootMeanSquare } from './fit/rigid-fit.ts';
import { type MeasuredApex, measuredApex } from './measured-apex.ts';
import { assertReadings, faultAtReading, type StationReading } from './readings/read-readings.ts';
import { maxReadingError, readingSigma } from './readings/reading-error.ts';
import { readingsInOtherUnit } from './suspect-unit.ts';

export interface Deviation {
  readonly station: number;
  readonly measured: number;
  readonly design: number;
  readonly deviation: number;
  /** measured − design, mm, positive outward: where there is more wood than the line asks for. */
  readonly proud: number;
  readonly verdict: StationVerdict;
}

/** `true` is on the line, `high` has wood to take off, `shy` is inside a saw line, `lost` is past the finished line. */
export type StationVerdict = 'true' | 'high' | 'shy' | 'lost';

export interface EdgeCheck {
  readonly edge: string;
  /** The line the readings are compared with; `base` is the line that stations and offsets are measured along. */
  readonly line: PartEdge;
  readonly base: BaseLine;
  readonly tolerance: number;
  readonly readings: readonly Deviation[];
  readonly worst: number;
  readonly rms: number;
  readonly bestFit: RigidFit;
  /** How proud the part lies by the rigid fit, at the first and at the last station. */
  readonly endDeviations: readonly [EndDeviation, EndDeviation];
  readonly apexes: readonly MeasuredApex[];
  readonly verdict: 'within' | 'outside';
}

export interface EndDeviation {
  readonly station: number;
  readonly proud: number;
}

export interface CheckOptions {
  readonly base: BaseLine;
  readonly tolerance: number;
  readonly beforeSanding: boolean;
}

/**
 * Compares a measured edge with its line, station by station and as a whole.
 * A reading counts as off only where it is off by more than the tolerance and half a graduation, the most that reading
 * the rule can err.
 * @param readings one or more
 * @throws Fault `readings.none`, `readings.not-finite`, `check.other-unit`; Faults `check.no-such-station` for each
 *   reading beyond the line's ends
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
  const [deviations, beyond]: [Deviation[], StationReading[]] = [[], []];
  for (const reading of readings) {
    const { station, offset: measured } = reading;
    const design = designOffsetAt(line, station, measured, base, { near, slack: spare + near });
    if (design === undefined) beyond.push(reading);
    else {
      const deviation = measured - design;
      const proud = outside * deviation;
      const verdict = stationVerdict(proud, limit, spare);
      deviations.push({ station, measured, design, deviation, proud, verdict });
    }
  }
  const [first, ...rest] = beyond.map((reading) => noSuchStation(line, reading));
  if (first)
    throw readingsInOtherUnit(line, readings, base, rule)
      ? faultAtReading(firstOf(readings), otherUnit(line, rule))
      : new Faults([first, ...rest]);
  const off = deviations.map(({ deviation }) => deviation);
  const fit = fitRigid(line.pieces, readings, base);
  const stations = readings.map(({ station }) => station);
  const endDeviation = (station: number): EndDeviation => ({
    station,
    proud: outside * (fit.shift + station * Math.tan(fit.turn)),
  });
  return {
    edge: edge.name,
    line,
    base,
    tolerance,
    readings: deviations,
    worst: maxAbs(off),
    rms: rootMeanSquare(off),
    bestFit: fit,
    endDeviations: [endDeviation(Math.min(...stations)), endDeviation(Math.max(...stations))],
    apexes: beforeSanding
      ? []
      : measuredApexes(edge, awayFromShoulders(edge, readings, base, near), base, readingSigma(rule)),
    verdict: maxAbs(off) > limit ? 'outside' : 'within',
  };
}

const otherUnit = ({ name }: PartEdge, { unit }: Rule): Fault => {
  const other = unit === 'in' ? 'mm' : 'in';
  return new Fault(
    'check.other-unit',
    `read in ${unit}, stations lie far past the ends of the edge "${name}"; in ${other} all lie along it. ` +
      `Write the unit with each reading, as in 150 ${other}, or head the columns of a file station_${other}, offset_${other}.`,
  );
};

function stationVerdict(proud: number, limit: number, spare: number): StationVerdict {
  if (proud > limit) return 'high';
  if (proud >= -limit) return 'true';
  return proud < -limit - spare ? 'lost' : 'shy';
}

const noSuchStation = (edge: PartEdge, reading: StationReading): Fault =>
  faultAtReading(
    reading,
    new Fault(
      'check.no-such-station',
      (mm) =>
        `the edge "${edge.name}" has no station ${mm(reading.station)}. Measure between its ends, or look at the unit.`,
    ),
  );

/** A reading within one graduation of a shoulder may belong to the run on either side of it. */
function awayFromShoulders(
  edge: PartEdge,
  readings: readonly StationReading[],
  base: BaseLine,
  near: number,
): StationReading[] {
  const corners = shoulderCorners(edge, base);
  return readings.filter(({ station }) =>
    corners.every((corner) => Math.abs(corner.station - station) > near),
  );
}

const measuredApexes = (edge: PartEdge, readings: readonly StationReading[], base: BaseLine, sigma: number) =>
  edge.runs.flatMap((run): MeasuredApex[] => {
    const { apex } = figuresOf(run);
    const found = apex && measuredApex(run, apex, readings, base, sigma);
    return found ? [found] : [];
  });
