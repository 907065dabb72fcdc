import { distance } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { StepKind } from '../job-keys.ts';
import type { SetOut } from './read-points.ts';

/**
 * Whether a step runs from left to right: its start, its pins and its end at rising stations, no two
 * points the same; a line may also stand square to the reference line, as a shoulder. Reports the first point
 * that does not, at that point.
 */
export function runsForward(kind: StepKind, start: SetOut, pins: readonly SetOut[], end: SetOut): boolean {
  if (isSame(end, start)) return false;
  if (isOver(end, start)) return kind === 'line' || onlyALine(end, start);
  if (!liesBeyond(end, start, 'the start of this step')) return false;
  let last = start;
  for (const pin of pins) {
    if (!liesBeyond(pin, last, 'the point before it') || !liesShortOf(pin, end)) return false;
    last = pin;
  }
  return true;
}

/** Whether two points stand at one station, one over the other. */
export const isOver = (point: SetOut, other: SetOut): boolean => Math.abs(point.at.x - other.at.x) <= JOIN_MM;

/** A strip or an arc that ended over its start would have to turn back on its way. */
function onlyALine(end: SetOut, start: SetOut): false {
  const cure = `Only a line may stand square to the reference line, as a shoulder: "line: ${written(end)}".`;
  end.entry.report(
    'job.backwards',
    `station ${end.station} is that of the start of this step, ${written(start)}. ${cure}`,
  );
  return false;
}

/** "[8, 3]", as typed. */
export const written = ({ station, offset }: SetOut): string => `[${station}, ${offset}]`;

function liesBeyond(later: SetOut, earlier: SetOut, what: string): boolean {
  if (isSame(later, earlier)) return false;
  if (later.at.x > earlier.at.x + JOIN_MM) return true;
  backwards(later, `does not lie beyond ${what} at station ${earlier.station}`);
  return false;
}

function liesShortOf(pin: SetOut, end: SetOut): boolean {
  if (isSame(pin, end)) return false;
  if (pin.at.x < end.at.x - JOIN_MM) return true;
  backwards(pin, `does not lie short of the end of this step at station ${end.station}`);
  return false;
}

function isSame(point: SetOut, other: SetOut): boolean {
  if (distance(point.at, other.at) > JOIN_MM) return false;
  const where = `this is the same point as another of this step, at station ${other.station}`;
  point.entry.report('job.same-point', `${where}. Leave one of them out, or move it.`);
  return true;
}

function backwards({ entry, station }: SetOut, wording: string): void {
  const cure = 'Stations must grow from point to point along an edge.';
  entry.report('job.backwards', `station ${station} ${wording}. ${cure}`);
}
