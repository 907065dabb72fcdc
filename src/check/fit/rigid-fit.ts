import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { add, direction, dot, leftNormal, type Point, scale } from '../../curves/geometry/point.ts';
import { normalEquations, solveSymmetric } from '../../curves/numeric/linear-algebra.ts';
import type { BaseLine } from '../../part/offsets.ts';
import type { StationReading } from '../readings/read-readings.ts';
import { ExtendedPath } from './signed-distance.ts';

/**
 * The turn (radians) about station 0 of the base line and the shift (mm) square to it that lay the line best on the
 * readings.
 * `residuals` are the distances left, square to the line, mm, positive to its left: how the part was sawn.
 */
export interface RigidFit {
  readonly shift: number;
  readonly turn: number;
  readonly residuals: readonly number[];
  readonly worst: number;
  readonly rms: number;
}

/** A furniture part converges in 3 or 4 steps; a step that makes the fit worse is halved. */
const MAX_STEPS = 60;
/** The fit has converged when the farthest reading moves by less, mm. */
const CONVERGED_MM = 1e-11;

/**
 * Gauss–Newton least squares of the normal distances over shift and turn.
 * A foot is where the distance is least, so sliding it changes nothing: a distance changes by the part of the reading's
 * motion along the normal.
 * Readings at one station alone give no turn.
 */
export function fitRigid(
  pieces: readonly Piece[],
  readings: readonly StationReading[],
  base: BaseLine,
): RigidFit {
  const line = new ExtendedPath(pieces);
  const reach = Math.max(...readings.map(({ station, offset }) => Math.hypot(station, offset)), 1);
  const offAt = (shift: number, turn: number): Residual[] =>
    readings.map((reading) => residualOf(line, reading, base, shift, turn));
  let [shift, turn] = [0, 0];
  let off = offAt(shift, turn);
  let share = 1;
  for (let i = 0; i < MAX_STEPS; i++) {
    const [across, about] = gaussNewtonStep(off);
    const next = offAt(shift + share * across, turn + share * about);
    const settled = share * (Math.abs(across) + reach * Math.abs(about)) < CONVERGED_MM;
    if (sumOfSquaredDistances(next) <= sumOfSquaredDistances(off)) {
      [shift, turn, off] = [shift + share * across, turn + share * about, next];
      share = 1;
    } else share /= 2;
    if (settled) break;
  }
  const residuals = off.map(({ distance }) => distance);
  return { shift, turn, residuals, worst: maxAbs(residuals), rms: rootMeanSquare(residuals) };
}

interface Residual {
  readonly distance: number;
  readonly byShift: number;
  readonly byTurn: number;
}

const sumOfSquaredDistances = (off: readonly Residual[]): number =>
  off.reduce((sum, { distance }) => sum + distance ** 2, 0);

function residualOf(
  line: ExtendedPath,
  reading: StationReading,
  base: BaseLine,
  shift: number,
  turn: number,
): Residual {
  const back = rotated({ x: reading.station, y: reading.offset - shift }, -turn);
  const { distance, normal } = line.signedDistance(add(base.origin, rotated(back, base.angle)));
  const inBase = rotated(normal, -base.angle);
  const across = rotated({ x: 0, y: 1 }, -turn);
  return { distance, byShift: -dot(inBase, across), byTurn: -dot(inBase, leftNormal(back)) };
}

function gaussNewtonStep(off: readonly Residual[]): [shift: number, turn: number] {
  const right = off.map(({ distance }) => -distance);
  const both = normalEquations(
    off.map(({ byShift, byTurn }) => [byShift, byTurn]),
    right,
  );
  const [shift, turn] = solveSymmetric(both.matrix, both.right) ?? [];
  if (shift !== undefined && turn !== undefined) return [shift, turn];
  const one = normalEquations(
    off.map(({ byShift }) => [byShift]),
    right,
  );
  return [solveSymmetric(one.matrix, one.right)?.[0] ?? 0, 0];
}

function rotated(p: Point, angle: number): Point {
  const way = direction(angle);
  return { x: dot(p, { x: way.x, y: -way.y }), y: dot(p, { x: way.y, y: way.x }) };
}

export const maxAbs = (off: readonly number[]): number => Math.max(...off.map(Math.abs));
export const rootMeanSquare = (off: readonly number[]): number =>
  Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length);

export const readingPoint = ({ station, offset }: StationReading, { origin, angle }: BaseLine): Point => {
  const way = direction(angle);
  return add(origin, add(scale(way, station), scale(leftNormal(way), offset)));
};
