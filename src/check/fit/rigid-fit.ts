import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { add, direction, dot, leftOf, type Point, scale } from '../../curves/geometry/point.ts';
import type { BaseLine } from '../../part/offsets.ts';
import type { Reading } from '../readings/read-readings.ts';
import { normalEquations, solveSymmetric } from './cholesky.ts';
import { Line } from './signed-distance.ts';

/**
 * How the sawn part lies against the rule, as a whole: the line turned about station 0 of the base line, then
 * shifted square to the base line, lies best on the readings. What is left is how it was sawn.
 */
export interface BestFit {
  /** mm, positive the way offsets grow. */
  readonly shift: number;
  /** Radians, counter-clockwise. */
  readonly turn: number;
  /** Distance of each reading from the line so laid, square to it, mm; positive to the line's left. */
  readonly left: readonly number[];
  readonly worst: number;
  readonly rms: number;
}

/** Steps before giving up; on a furniture part 3 or 4 settle it, and one that makes it worse is halved. */
const MOST_STEPS = 60;
/** Settled when the farthest reading moves by less, mm. */
const DONE_MM = 1e-11;

/**
 * Least squares of the distances square to the exact curve, over shift and turn, by Gauss–Newton: as a foot
 * is where the distance is least, sliding it along the line changes nothing, and a reading's distance changes
 * by the part of its motion along the normal. One reading, or several at one station, tell no turn.
 */
export function bestFit(pieces: readonly Piece[], readings: readonly Reading[], base: BaseLine): BestFit {
  const line = new Line(pieces);
  const reach = Math.max(...readings.map(({ station, offset }) => Math.hypot(station, offset)), 1);
  const offAt = (shift: number, turn: number): Off[] =>
    readings.map((reading) => distanceOf(line, reading, base, shift, turn));
  let [shift, turn] = [0, 0];
  let off = offAt(shift, turn);
  let share = 1;
  for (let i = 0; i < MOST_STEPS; i++) {
    const [across, about] = stepOf(off);
    const next = offAt(shift + share * across, turn + share * about);
    const settled = share * (Math.abs(across) + reach * Math.abs(about)) < DONE_MM;
    if (misfit(next) <= misfit(off)) {
      [shift, turn, off] = [shift + share * across, turn + share * about, next];
      share = 1;
    } else share /= 2;
    if (settled) break;
  }
  const left = off.map(({ distance }) => distance);
  return { shift, turn, left, worst: worstOf(left), rms: rmsOf(left) };
}

interface Off {
  readonly distance: number;
  readonly byShift: number;
  readonly byTurn: number;
}

const misfit = (off: readonly Off[]): number => off.reduce((sum, { distance }) => sum + distance ** 2, 0);

/** A reading's distance once it is moved back onto the line's own place, and how that changes with the motion. */
function distanceOf(line: Line, reading: Reading, base: BaseLine, shift: number, turn: number): Off {
  const back = turned({ x: reading.station, y: reading.offset - shift }, -turn);
  const { distance, normal } = line.squareOff(add(base.origin, turned(back, base.angle)));
  const inBase = turned(normal, -base.angle);
  const across = turned({ x: 0, y: 1 }, -turn);
  return { distance, byShift: -dot(inBase, across), byTurn: -dot(inBase, leftOf(back)) };
}

function stepOf(off: readonly Off[]): [shift: number, turn: number] {
  const right = off.map(({ distance }) => -distance);
  const both = normalEquations(
    off.map(({ byShift, byTurn }) => [byShift, byTurn]),
    right,
  );
  const step = solveSymmetric(both.matrix, both.right);
  if (step) return [step[0]!, step[1]!];
  const one = normalEquations(
    off.map(({ byShift }) => [byShift]),
    right,
  );
  return [solveSymmetric(one.matrix, one.right)?.[0] ?? 0, 0];
}

function turned(p: Point, angle: number): Point {
  const way = direction(angle);
  return { x: dot(p, { x: way.x, y: -way.y }), y: dot(p, { x: way.y, y: way.x }) };
}

export const worstOf = (off: readonly number[]): number => Math.max(...off.map(Math.abs));
export const rmsOf = (off: readonly number[]): number =>
  Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length);

/** The place of a reading on the part. */
export const placeOf = ({ station, offset }: Reading, { origin, angle }: BaseLine): Point => {
  const way = direction(angle);
  return add(origin, add(scale(way, station), scale(leftOf(way), offset)));
};
