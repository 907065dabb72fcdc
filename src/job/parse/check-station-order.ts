import { distance, point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { present } from '../../units/lists.ts';
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

const isSameStation = (one: Coordinate, other: Coordinate): boolean =>
  Math.abs(one.at.x - other.at.x) <= JOIN_MM;

const reportVerticalCurve = (end: Coordinate, start: Coordinate): false =>
  reportBackwards(
    end,
    `is also the start of this step, ${showCoordinate(start)}`,
    `Only a line can be square to the reference line: "line: ${showCoordinate(end)}".`,
  );

const showCoordinate = ({ station, offset }: Coordinate): string => `[${station}, ${offset}]`;

function checkBeyond(later: Coordinate, earlier: Coordinate, what: string): boolean {
  if (reportSamePoint(later, earlier)) return false;
  if (later.at.x > earlier.at.x + JOIN_MM) return true;
  return reportBackwards(later, `is not past ${what} at station ${earlier.station}`);
}

function checkBefore(pin: Coordinate, end: Coordinate): boolean {
  if (reportSamePoint(pin, end)) return false;
  if (pin.at.x < end.at.x - JOIN_MM) return true;
  return reportBackwards(pin, `is not before the end of this step at station ${end.station}`);
}

function reportSamePoint(one: Coordinate, other: Coordinate): boolean {
  if (distance(one.at, other.at) > JOIN_MM) return false;
  const where = `this step has the same point twice, at station ${other.station}`;
  one.entry.report('job.same-point', `${where}. Move one of them, or remove it.`);
  return true;
}

function reportBackwards(
  { entry, station }: Coordinate,
  wording: string,
  cure = 'Make each station larger than the one before it.',
): false {
  entry.report('job.backwards', `station ${station} ${wording}. ${cure}`);
  return false;
}

type ShoulderLine = Readonly<Record<'start' | 'end', Coordinate>>;

export const isShoulderStep = ({ start, end }: ShoulderLine): boolean => start.at.x === end.at.x;

/** A shoulder is square to the last bit, in whatever units its two stations were typed. */
export const snapToShoulder = (end: Coordinate, start: Coordinate): Coordinate =>
  isSameStation(end, start) ? { ...end, at: point(start.at.x, end.at.y) } : end;

/** At an end of the edge the end's cut would remove a shoulder, or the outline run over it twice. */
export function checkShoulder(
  { start, end }: ShoulderLine,
  { isFirst, isLast, afterShoulder }: Readonly<Record<'isFirst' | 'isLast' | 'afterShoulder', boolean>>,
): boolean {
  const [from, to] = [showCoordinate(start), showCoordinate(end)];
  const atEnd = `a shoulder cannot be at the end of an edge, station ${end.station}. Remove it`;
  const [wording] = present(
    isFirst && `${atEnd}, and start the edge at ${to}.`,
    isLast && `${atEnd}, so that the edge ends at ${from}.`,
    afterShoulder &&
      `there are two shoulders at station ${start.station}. Write one, to the last offset: "line: ${to}".`,
  );
  if (wording !== undefined) end.entry.report('job.shoulder', wording);
  return wording === undefined;
}
