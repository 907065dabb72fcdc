import { point } from '../../curves/geometry/point.ts';
import { isSameStation, showCoordinate } from './check-station-order.ts';
import type { Coordinate } from './read-points.ts';

interface ShoulderLine {
  readonly start: Coordinate;
  readonly end: Coordinate;
}

export const isShoulderStep = ({ start, end }: ShoulderLine): boolean => start.at.x === end.at.x;

/** A shoulder is square to the last bit, in whatever units its two stations were typed. */
export const snapToShoulder = (end: Coordinate, start: Coordinate): Coordinate =>
  isSameStation(end, start) ? { ...end, at: point(start.at.x, end.at.y) } : end;

/** At an end of the edge the end's cut would remove a shoulder, or the outline run over it twice. */
export function checkShoulder(
  { start, end }: ShoulderLine,
  { isFirst, isLast, afterShoulder }: Readonly<Record<'isFirst' | 'isLast' | 'afterShoulder', boolean>>,
): boolean {
  const report = (wording: string): false => {
    end.entry.report('job.shoulder', `${wording}.`);
    return false;
  };
  const atEnd = `a shoulder at station ${end.station} lies in the cut of the part’s end`;
  if (isFirst) return report(`${atEnd}. Leave it out, and begin the edge at ${showCoordinate(end)}`);
  if (isLast) return report(`${atEnd}. Leave it out: the edge ends at ${showCoordinate(start)}`);
  if (!afterShoulder) return true;
  return report(
    `there is a shoulder at station ${start.station} already. Write one, to its last offset: "line: ${showCoordinate(end)}"`,
  );
}
