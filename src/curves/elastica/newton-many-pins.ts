import { runSpan, spanEnd } from './shooting.ts';

/*
 * Newton's method for a strip over many pins. Unknown are the angle θ at every pin and, in every span,
 * the starting curvature, its rate and the length (in the span's own measure, see span.ts). Each span
 * must reach its far pin at that pin's angle; at each pin the curvature must carry over (or vanish, at
 * a free end). A span's three unknowns follow from the angles at its two pins, which leaves one
 * three-diagonal system for the angles: the second derivative of the strip's energy ½∫κ² by the
 * angles, with every pin held. Its pivots are therefore all positive exactly when the strip rests in a
 * least energy; the strips that loop or are about to snap over are told by it.
 */

/** What the strip has to pass: the spans' chords, and the angle of each held end. */
export interface Course {
  /** Length of each span's chord. */
  readonly chords: Float64Array;
  /** Direction of each span's chord, radians, unwrapped. */
  readonly directions: Float64Array;
  readonly start: number | undefined;
  readonly end: number | undefined;
}

/** Angle at every pin, then curvature, rate and length of every span in the span's own measure. */
export type Shape = Float64Array;

export const spanAt = (pins: number, i: number): number => pins + 3 * i;

/** A Newton step turns no pin by more, radians, and changes no length by more than this share. */
const [MOST_TURN, MOST_STRETCH] = [0.5, 0.4];

/**
 * Least stiffness, as a share of the straight strip's. Nearer to snapping over, rounding (1e-15) would show
 * in the shape by more than 1e-10; the strip gets there only in the last ten-thousand-millionth of its rise.
 */
const BRINK = 1e-5;
/** The straight span's: of its own determinant, and of the turning of a pin, over the chord. */
const [STRAIGHT_DETERMINANT, STRAIGHT_STIFFNESS] = [1 / 12, 4];

/** Changes of a span's curvature, rate, length and end curvature: of themselves, and by the angle at either pin. */
const PER_SPAN = 12;

/** Room for one system, kept from step to step. */
export class Bench {
  readonly links: Float64Array;
  readonly pivots: Float64Array;
  readonly upper: Float64Array;
  readonly lower: Float64Array;
  readonly moves: Float64Array;

  constructor(readonly pins: number) {
    this.links = new Float64Array(PER_SPAN * (pins - 1));
    this.pivots = new Float64Array(pins);
    this.upper = new Float64Array(pins);
    this.lower = new Float64Array(pins);
    this.moves = new Float64Array(pins);
  }
}

const far = spanEnd();

/**
 * Brings a shape to rest on its course, in place.
 * @param done the last step's size, radians, at which to stop; the error left is about its square
 * @returns whether it came to rest in a least energy within `steps`; otherwise the shape is spoilt
 */
export function settle(course: Course, shape: Shape, bench: Bench, done: number, steps: number): boolean {
  const { pins } = bench;
  if (course.start !== undefined) shape[0] = course.start;
  if (course.end !== undefined) shape[pins - 1] = course.end;
  for (let i = 0; i < steps; i++) {
    if (!gather(course, shape, bench) || !solve(course, bench)) return false;
    const size = move(shape, bench);
    if (!(size < Number.POSITIVE_INFINITY)) return false;
    if (size < done) return unlooped(course, shape, pins);
  }
  return false;
}

/** The strip's equation lets no span turn by more than half a circle. */
function unlooped({ directions }: Course, shape: Shape, pins: number): boolean {
  for (let i = 0; i < pins - 1; i++) {
    const [a, b] = [shape[i]! - directions[i]!, shape[i + 1]! - directions[i]!];
    if (!(Math.abs(b - a) <= Math.PI && Math.abs(a) < Math.PI && Math.abs(b) < Math.PI)) return false;
  }
  return true;
}

/** Links every span to the angles at its pins and sums up the system. */
function gather(course: Course, shape: Shape, bench: Bench): boolean {
  const { pins, links, pivots, upper, lower, moves } = bench;
  pivots.fill(0);
  moves.fill(0);
  for (let i = 0; i < pins - 1; i++) {
    const chord = course.chords[i]!;
    const toEnd = link(shape, i, course.directions[i]!, bench);
    if (!toEnd) return false;
    const at = PER_SPAN * i;
    pivots[i]! -= links[at + 4]! / chord;
    upper[i] = -links[at + 8]! / chord;
    lower[i + 1] = links[at + 7]! / chord;
    pivots[i + 1]! += links[at + 11]! / chord;
    moves[i]! += (shape[spanAt(pins, i)]! + links[at]!) / chord;
    moves[i + 1]! -= (far.curvature + links[at + 3]!) / chord;
  }
  return true;
}

/**
 * How a span's unknowns and its end curvature must change: by themselves (links 0…3), with the angle
 * at its start (4…7) and with the angle at its end (8…11).
 * @returns false when the span itself is about to snap over between its two pins
 */
function link(shape: Shape, i: number, direction: number, { pins, links }: Bench): boolean {
  const at = spanAt(pins, i);
  const angle = shape[i]! - direction;
  runSpan(far, angle, shape[at]!, shape[at + 1]!, shape[at + 2]!);
  const { byCurvature: p, byRate: q } = far;
  const [c, s, k] = [Math.cos(far.angle), Math.sin(far.angle), far.curvature];
  // Rows x, y, angle; columns curvature, rate, length. The straight span's determinant is 1/12.
  const [c0, c1, c2] = [q.y * k - s * q.angle, s * p.angle - p.y * k, p.y * q.angle - q.y * p.angle];
  const determinant = p.x * c0 + q.x * c1 + c * c2;
  if (!(determinant > BRINK * STRAIGHT_DETERMINANT)) return false;
  const put = (to: number, x: number, y: number, a: number): void => {
    const curvature = (c0 * x + (c * q.angle - q.x * k) * y + (q.x * s - c * q.y) * a) / determinant;
    const rate = (c1 * x + (p.x * k - c * p.angle) * y + (c * p.y - p.x * s) * a) / determinant;
    const length = (c2 * x + (q.x * p.angle - p.x * q.angle) * y + (p.x * q.y - q.x * p.y) * a) / determinant;
    links[to] = curvature;
    links[to + 1] = rate;
    links[to + 2] = length;
    links[to + 3] = p.curvature * curvature + q.curvature * rate + far.rate * length;
  };
  const to = PER_SPAN * i;
  put(to, 1 - far.x, -far.y, shape[i + 1]! - direction - far.angle);
  // Turning the start turns the whole span about it.
  put(to + 4, far.y, -far.x, -1);
  put(to + 8, 0, 0, 1);
  return true;
}

/** Elimination without pivoting, as the system of a resting strip is positive definite. */
function solve({ chords, start, end }: Course, { pins, pivots, upper, lower, moves }: Bench): boolean {
  const last = pins - 1;
  // A held end is stiff beyond measure.
  if (start !== undefined) [pivots[0], upper[0], moves[0]] = [Number.POSITIVE_INFINITY, 0, 0];
  if (end !== undefined) [pivots[last], lower[last], moves[last]] = [Number.POSITIVE_INFINITY, 0, 0];
  for (let i = 0; i <= last; i++) {
    if (i > 0) {
      const share = lower[i]! / pivots[i - 1]!;
      pivots[i]! -= share * upper[i - 1]!;
      moves[i]! -= share * moves[i - 1]!;
    }
    const shorter = Math.min(chords[i - 1] ?? chords[i]!, chords[i] ?? chords[i - 1]!);
    if (!(pivots[i]! > (BRINK * STRAIGHT_STIFFNESS) / shorter)) return false;
  }
  moves[last]! /= pivots[last]!;
  for (let i = last - 1; i >= 0; i--) moves[i] = (moves[i]! - upper[i]! * moves[i + 1]!) / pivots[i]!;
  return true;
}

/** Takes the step, shortened where it is too long. @returns the step's full size */
function move(shape: Shape, { pins, links, moves }: Bench): number {
  let [turned, stretched, bent] = [0, 0, 0];
  for (let i = 0; i < pins; i++) turned = Math.max(turned, Math.abs(moves[i]!));
  for (let i = 0; i < pins - 1; i++) {
    const at = PER_SPAN * i;
    for (let j = 0; j < 3; j++)
      links[at + j]! += links[at + 4 + j]! * moves[i]! + links[at + 8 + j]! * moves[i + 1]!;
    bent = Math.max(bent, Math.abs(links[at]!), Math.abs(links[at + 1]!));
    stretched = Math.max(stretched, Math.abs(links[at + 2]!) / shape[spanAt(pins, i) + 2]!);
  }
  const share = Math.min(1, MOST_TURN / turned, MOST_STRETCH / stretched);
  for (let i = 0; i < pins; i++) shape[i]! += share * moves[i]!;
  for (let i = 0; i < pins - 1; i++)
    for (let j = 0; j < 3; j++) shape[spanAt(pins, i) + j]! += share * links[PER_SPAN * i + j]!;
  // Curvature and rate of a span are about 4 and 6 times its angles.
  return Math.max(turned, stretched, bent / 4);
}
