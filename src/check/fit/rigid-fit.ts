import type { Piece } from '../../curves/geometry/pieces/piece.ts';
import { direction, dot, leftNormal, type Point, subtract } from '../../curves/geometry/point.ts';
import { PolylineBvh } from '../../curves/geometry/polyline-bvh.ts';
import { normalEquations, solveSymmetric } from '../../curves/numeric/linear-algebra.ts';
import { type BaseLine, fromBaseLine } from '../../part/offsets.ts';
import type { StationReading } from '../readings/read-readings.ts';

/** The largest and the root mean square of some residuals, mm. */
export interface Misfit {
  readonly worst: number;
  readonly rms: number;
}

export const sumOfSquares = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value * value, 0);

export const maxAbs = (residuals: readonly number[]): number => Math.max(...residuals.map(Math.abs));

export const misfitOf = (residuals: readonly number[]): Misfit => {
  return { worst: maxAbs(residuals), rms: Math.sqrt(sumOfSquares(residuals) / residuals.length) };
};

/** Segments of one piece: a fit builds many trial curves and measures a few readings on each. */
const SEGMENTS_PER_PIECE = 8;

/** To contiguous pieces that run on straight past their ends, mm, positive to the left, with the normal at the foot. */
export function signedDistanceFrom(pieces: readonly Piece[]) {
  const polyline = new PolylineBvh(pieces, SEGMENTS_PER_PIECE);
  return (p: Point): { readonly distance: number; readonly normal: Point } => {
    const foot = polyline.closestPoint(p).at;
    const normal = leftNormal(direction(foot.angle));
    return { distance: dot(normal, subtract(p, foot)), normal };
  };
}

/** The turn (radians) about station 0 and the shift (mm) that lay the line best; what is left shows how it was sawn. */
export interface RigidFit extends Misfit {
  readonly shift: number;
  readonly turn: number;
  readonly residuals: readonly number[];
}

/** A furniture part converges in 3 or 4 steps; a step that makes the fit worse is halved. */
const MAX_STEPS = 60;
/** The fit has converged when the farthest reading moves by less, mm. */
const CONVERGED_MM = 1e-11;

/** Gauss–Newton: a foot is where the distance is least, so only motion along the normal changes it. */
export function fitRigid(
  pieces: readonly Piece[],
  readings: readonly StationReading[],
  base: BaseLine,
): RigidFit {
  const distanceOf = signedDistanceFrom(pieces);
  const reach = Math.max(...readings.map(({ station, offset }) => Math.hypot(station, offset)), 1);
  const offAt = (shift: number, turn: number): Residual[] =>
    readings.map(({ station, offset }) => {
      const back = rotated({ x: station, y: offset - shift }, -turn);
      const { distance, normal } = distanceOf(fromBaseLine(back, base));
      const inBase = rotated(normal, -base.angle);
      const across = leftNormal(direction(-turn));
      return { distance, byShift: -dot(inBase, across), byTurn: -dot(inBase, leftNormal(back)) };
    });
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
  return { shift, turn, residuals, ...misfitOf(residuals) };
}

interface Residual {
  readonly distance: number;
  readonly byShift: number;
  readonly byTurn: number;
}

const sumOfSquaredDistances = (off: readonly Residual[]): number =>
  sumOfSquares(off.map(({ distance }) => distance));

function gaussNewtonStep(off: readonly Residual[]): [shift: number, turn: number] {
  const right = off.map(({ distance }) => -distance);
  const solve = (rows: number[][]): number[] => {
    const normal = normalEquations(rows, right);
    return solveSymmetric(normal.matrix, normal.right) ?? [];
  };
  const [shift, turn] = solve(off.map(({ byShift, byTurn }) => [byShift, byTurn]));
  if (shift !== undefined && turn !== undefined) return [shift, turn];
  return [solve(off.map(({ byShift }) => [byShift]))[0] ?? 0, 0];
}

function rotated(p: Point, angle: number): Point {
  const way = direction(angle);
  return { x: dot(p, { x: way.x, y: -way.y }), y: dot(p, { x: way.y, y: way.x }) };
}
