import { distance } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { StepKindName } from '../steps/step-kinds.ts';
import type { Coordinate } from './read-points.ts';

/** Whether a step's points have rising stations, or it is a shoulder. The first point out of order is reported. */
export function checkStationOrder(
  kind: StepKindName,
  start: Coordinate,
  pins: readonly Coordinate[],
  end: Coordinate,
): boolean {
  if (reportSamePoint(end, start)) return false;
  if (isSameStation(end, start)) return kind === 'line' || reportVerticalCurve(end, start);
  if (!checkBeyond(end, start, 'the start of this step')) return false;
  return pins.every(
    (pin, i) => checkBeyond(pin, pins[i - 1] ?? start, 'the point before it') && checkBefore(pin, end),
  );
}

export const isSameStation = (point: Coordinate, other: Coordinate): boolean =>
  Math.abs(point.at.x - other.at.x) <= JOIN_MM;

const reportVerticalCurve = (end: Coordinate, start: Coordinate): false =>
  reportBackwards(
    end,
    `is that of the start of this step, ${showCoordinate(start)}`,
    `Only a line may stand square to the reference line, as a shoulder: "line: ${showCoordinate(end)}".`,
  );

export const showCoordinate = ({ station, offset }: Coordinate): string => `[${station}, ${offset}]`;

function checkBeyond(later: Coordinate, earlier: Coordinate, what: string): boolean {
  if (reportSamePoint(later, earlier)) return false;
  if (later.at.x > earlier.at.x + JOIN_MM) return true;
  return reportBackwards(later, `does not lie beyond ${what} at station ${earlier.station}`);
}

function checkBefore(pin: Coordinate, end: Coordinate): boolean {
  if (reportSamePoint(pin, end)) return false;
  if (pin.at.x < end.at.x - JOIN_MM) return true;
  return reportBackwards(pin, `does not lie short of the end of this step at station ${end.station}`);
}

function reportSamePoint(point: Coordinate, other: Coordinate): boolean {
  if (distance(point.at, other.at) > JOIN_MM) return false;
  const where = `this is the same point as another of this step, at station ${other.station}`;
  point.entry.report('job.same-point', `${where}. Leave one of them out, or move it.`);
  return true;
}

function reportBackwards(
  { entry, station }: Coordinate,
  wording: string,
  cure = 'Stations must grow from point to point along an edge.',
): false {
  entry.report('job.backwards', `station ${station} ${wording}. ${cure}`);
  return false;
}
