import { integrateSpan, newSpanEnd } from './shooting.ts';

/*
 * The unknowns are the angle θ at every pin and in every span the starting curvature, its rate and the length (in the
 * span's own units, see shooting.ts). A span must reach its far pin at that pin's angle, with continuous curvature (0
 * at a free end). Its unknowns follow from the angles at its pins, which leaves a tridiagonal system: the Hessian of
 * the energy ½∫κ² with every pin held. Strips that loop or are about to snap through have a pivot that is not
 * positive.
 */

export interface ChordGeometry {
  readonly chords: Float64Array;
  /** Direction of each span's chord, radians, unwrapped. */
  readonly directions: Float64Array;
  readonly start: number | undefined;
  readonly end: number | undefined;
}

/** Angle at every pin, then curvature, rate and length of every span in the span's own units. */
export type StateVector = Float64Array;

/** Index of span i in the state vector. */
export const spanOffset = (pins: number, i: number): number => pins + 3 * i;

/** Largest turn of a pin, radians, and relative change of a length in one Newton step. */
const [MAX_TURN, MAX_STRETCH] = [0.5, 0.4];

/** Least share of the straight strip's stiffness: nearer to snapping through, rounding (1e-15) would show beyond 1e-10. */
const MIN_PIVOT = 1e-5;
/** For the straight span: its determinant, and the stiffness of turning a pin, over the chord. */
const [STRAIGHT_DETERMINANT, STRAIGHT_STIFFNESS] = [1 / 12, 4];

/** Entries per span: changes of curvature, rate, length and end curvature, alone and by the angle at either pin. */
const JACOBIAN_PER_SPAN = 12;

export class Workspace {
  readonly jacobian: Float64Array;
  readonly diagonal: Float64Array;
  readonly upper: Float64Array;
  readonly lower: Float64Array;
  readonly step: Float64Array;

  constructor(readonly pins: number) {
    this.jacobian = new Float64Array(JACOBIAN_PER_SPAN * (pins - 1));
    [this.diagonal, this.upper] = [new Float64Array(pins), new Float64Array(pins)];
    [this.lower, this.step] = [new Float64Array(pins), new Float64Array(pins)];
  }
}

const farEnd = newSpanEnd();

/** Brings a state to equilibrium in place, to a last step of `done` (radians); false if it does not get there. */
export function newtonSolve(
  course: ChordGeometry,
  shape: StateVector,
  bench: Workspace,
  done: number,
  steps: number,
): boolean {
  const { pins } = bench;
  if (course.start !== undefined) shape[0] = course.start;
  if (course.end !== undefined) shape[pins - 1] = course.end;
  for (let i = 0; i < steps; i++) {
    if (!assemble(course, shape, bench) || !solveAngles(course, bench)) return false;
    const size = applyStep(shape, bench);
    if (!(size < Number.POSITIVE_INFINITY)) return false;
    if (size < done) return hasNoLoop(course, shape, pins);
  }
  return false;
}

/** No span of an elastica turns by more than half a circle. */
function hasNoLoop({ directions }: ChordGeometry, shape: StateVector, pins: number): boolean {
  for (let i = 0; i < pins - 1; i++) {
    const [a, b] = [shape[i]! - directions[i]!, shape[i + 1]! - directions[i]!];
    if (!(Math.abs(b - a) <= Math.PI && Math.abs(a) < Math.PI && Math.abs(b) < Math.PI)) return false;
  }
  return true;
}

function assemble(course: ChordGeometry, shape: StateVector, bench: Workspace): boolean {
  const { pins, jacobian, diagonal, upper, lower, step } = bench;
  diagonal.fill(0);
  step.fill(0);
  for (let i = 0; i < pins - 1; i++) {
    const chord = course.chords[i]!;
    const toEnd = linearizeSpan(shape, i, course.directions[i]!, bench);
    if (!toEnd) return false;
    const at = JACOBIAN_PER_SPAN * i;
    diagonal[i]! -= jacobian[at + 4]! / chord;
    upper[i] = -jacobian[at + 8]! / chord;
    lower[i + 1] = jacobian[at + 7]! / chord;
    diagonal[i + 1]! += jacobian[at + 11]! / chord;
    step[i]! += (shape[spanOffset(pins, i)]! + jacobian[at]!) / chord;
    step[i + 1]! -= (farEnd.curvature + jacobian[at + 3]!) / chord;
  }
  return true;
}

/** Changes alone (0…3), with the angle at its start (4…7) and at its end (8…11). False if about to snap through. */
function linearizeSpan(
  shape: StateVector,
  i: number,
  direction: number,
  { pins, jacobian }: Workspace,
): boolean {
  const at = spanOffset(pins, i);
  const angle = shape[i]! - direction;
  integrateSpan(farEnd, angle, shape[at]!, shape[at + 1]!, shape[at + 2]!);
  const { byCurvature: p, byRate: q } = farEnd;
  const [c, s, k] = [Math.cos(farEnd.angle), Math.sin(farEnd.angle), farEnd.curvature];
  // Rows x, y, angle; columns curvature, rate, length. The straight span's determinant is 1/12.
  const [c0, c1, c2] = [q.y * k - s * q.angle, s * p.angle - p.y * k, p.y * q.angle - q.y * p.angle];
  const determinant = p.x * c0 + q.x * c1 + c * c2;
  if (!(determinant > MIN_PIVOT * STRAIGHT_DETERMINANT)) return false;
  const solve3x3 = (to: number, x: number, y: number, a: number): void => {
    const curvature = (c0 * x + (c * q.angle - q.x * k) * y + (q.x * s - c * q.y) * a) / determinant;
    const rate = (c1 * x + (p.x * k - c * p.angle) * y + (c * p.y - p.x * s) * a) / determinant;
    const length = (c2 * x + (q.x * p.angle - p.x * q.angle) * y + (p.x * q.y - q.x * p.y) * a) / determinant;
    jacobian[to] = curvature;
    jacobian[to + 1] = rate;
    jacobian[to + 2] = length;
    jacobian[to + 3] = p.curvature * curvature + q.curvature * rate + farEnd.rate * length;
  };
  const to = JACOBIAN_PER_SPAN * i;
  solve3x3(to, 1 - farEnd.x, -farEnd.y, shape[i + 1]! - direction - farEnd.angle);
  // Turning the start turns the whole span about it.
  solve3x3(to + 4, farEnd.y, -farEnd.x, -1);
  solve3x3(to + 8, 0, 0, 1);
  return true;
}

/** Elimination without pivoting: the system of a strip at rest is positive definite. */
function solveAngles(
  { chords, start, end }: ChordGeometry,
  { pins, diagonal, upper, lower, step }: Workspace,
): boolean {
  const last = pins - 1;
  // A held end is infinitely stiff.
  if (start !== undefined) [diagonal[0], upper[0], step[0]] = [Number.POSITIVE_INFINITY, 0, 0];
  if (end !== undefined) [diagonal[last], lower[last], step[last]] = [Number.POSITIVE_INFINITY, 0, 0];
  for (let i = 0; i <= last; i++) {
    if (i > 0) {
      const share = lower[i]! / diagonal[i - 1]!;
      diagonal[i]! -= share * upper[i - 1]!;
      step[i]! -= share * step[i - 1]!;
    }
    const shorter = Math.min(chords[i - 1] ?? chords[i]!, chords[i] ?? chords[i - 1]!);
    if (!(diagonal[i]! > (MIN_PIVOT * STRAIGHT_STIFFNESS) / shorter)) return false;
  }
  step[last]! /= diagonal[last]!;
  for (let i = last - 1; i >= 0; i--) step[i] = (step[i]! - upper[i]! * step[i + 1]!) / diagonal[i]!;
  return true;
}

/** Applies the step, shortened if it is too long. @returns the step's full size */
function applyStep(shape: StateVector, { pins, jacobian, step }: Workspace): number {
  let [turned, stretched, bent] = [0, 0, 0];
  for (let i = 0; i < pins; i++) turned = Math.max(turned, Math.abs(step[i]!));
  for (let i = 0; i < pins - 1; i++) {
    const at = JACOBIAN_PER_SPAN * i;
    for (let j = 0; j < 3; j++)
      jacobian[at + j]! += jacobian[at + 4 + j]! * step[i]! + jacobian[at + 8 + j]! * step[i + 1]!;
    bent = Math.max(bent, Math.abs(jacobian[at]!), Math.abs(jacobian[at + 1]!));
    stretched = Math.max(stretched, Math.abs(jacobian[at + 2]!) / shape[spanOffset(pins, i) + 2]!);
  }
  const share = Math.min(1, MAX_TURN / turned, MAX_STRETCH / stretched);
  for (let i = 0; i < pins; i++) shape[i]! += share * step[i]!;
  for (let i = 0; i < pins - 1; i++)
    for (let j = 0; j < 3; j++)
      shape[spanOffset(pins, i) + j]! += share * jacobian[JACOBIAN_PER_SPAN * i + j]!;
  // Curvature and rate of a span are about 4 and 6 times its angles.
  return Math.max(turned, stretched, bent / 4);
}
