import type { ChordGeometry, StateVector } from './newton-many-pins.ts';
import { spanOffset } from './newton-many-pins.ts';

/**
 * The pins of a strip over its own chord, as shares of the chord: first at (0, 0), last at (1, 0). Angles of
 * held ends are relative to the chord, radians.
 */
export interface StripProblem {
  readonly stations: readonly number[];
  readonly heights: readonly number[];
  readonly start: number | undefined;
  readonly end: number | undefined;
}

const scaled = (angle: number | undefined, share: number): number | undefined =>
  angle === undefined ? undefined : angle * share;

/** The same stations with heights and held angles interpolated between two strips, at `share` 0 and 1. */
export function interpolateProblem(from: StripProblem, to: StripProblem, share: number): StripProblem {
  const mix = (a: number, b: number): number => a + (b - a) * share;
  const held = (a?: number, b?: number): number | undefined =>
    a === undefined || b === undefined ? undefined : mix(a, b);
  return {
    stations: to.stations,
    heights: to.heights.map((y, i) => mix(from.heights[i]!, y)),
    start: held(from.start, to.start),
    end: held(from.end, to.end),
  };
}

export const flatProblem = (pins: StripProblem): StripProblem => ({
  stations: pins.stations,
  heights: pins.heights.map(() => 0),
  start: scaled(pins.start, 0),
  end: scaled(pins.end, 0),
});

/** The span chords. Stations rise, so no direction leaves ±π/2 and none needs unwrapping. */
export function chordGeometry({ stations, heights, start, end }: StripProblem): ChordGeometry {
  const spans = stations.length - 1;
  const chords = new Float64Array(spans);
  const directions = new Float64Array(spans);
  for (let i = 0; i < spans; i++) {
    const [dx, dy] = [stations[i + 1]! - stations[i]!, heights[i + 1]! - heights[i]!];
    chords[i] = Math.hypot(dx, dy);
    directions[i] = Math.atan2(dy, dx);
  }
  return { chords, directions, start, end };
}

/** The state of the straight strip. */
export function straightState(pins: number): StateVector {
  const shape = new Float64Array(spanOffset(pins, pins - 1));
  for (let i = 0; i < pins - 1; i++) shape[spanOffset(pins, i) + 2] = 1;
  return shape;
}

/**
 * The shape of a shallow strip: cubic beams over each span's own chord, with the bending moment continuous at
 * the pins. A natural or clamped cubic spline, but in angles.
 */
export function shallowState(course: ChordGeometry): StateVector {
  const pins = course.chords.length + 1;
  const shape = new Float64Array(spanOffset(pins, pins - 1));
  shape.set(shallowAngles(course));
  for (let i = 0; i < pins - 1; i++) {
    const [a, b] = [shape[i]! - course.directions[i]!, shape[i + 1]! - course.directions[i]!];
    shape.set([-4 * a - 2 * b, 6 * (a + b), 1 + (2 * a * a - a * b + 2 * b * b) / 30], spanOffset(pins, i));
  }
  return shape;
}

function shallowAngles({ chords, directions, start, end }: ChordGeometry): Float64Array {
  const pins = chords.length + 1;
  const pivots = new Float64Array(pins);
  const angles = new Float64Array(pins);
  const across = (i: number): number => (i < 0 || i > pins - 2 ? 0 : 1 / chords[i]!);
  for (let i = 0; i < pins; i++) {
    const [before, after] = [across(i - 1), across(i)];
    const fixed = i === 0 ? start : i === pins - 1 ? end : undefined;
    const lower = fixed === undefined ? before : 0;
    const known = fixed ?? 3 * ((directions[i - 1] ?? 0) * before + (directions[i] ?? 0) * after);
    pivots[i] = fixed === undefined ? 2 * (before + after) : 1;
    angles[i] = known;
    if (i === 0) continue;
    // A held start contributes only its angle to the second pin's equation.
    const share = lower / pivots[i - 1]!;
    pivots[i]! -= share * (i === 1 && start !== undefined ? 0 : before);
    angles[i]! -= share * angles[i - 1]!;
  }
  angles[pins - 1]! /= pivots[pins - 1]!;
  for (let i = pins - 2; i >= 0; i--) {
    const upper = i === 0 && start !== undefined ? 0 : across(i);
    angles[i] = (angles[i]! - upper * angles[i + 1]!) / pivots[i]!;
  }
  return angles;
}

/** The largest angle, radians, between a shallow shape and the chord, or its spans' own chords. */
export function nonlinearity({ directions }: ChordGeometry, shape: StateVector): number {
  let deepest = 0;
  for (let i = 0; i <= directions.length; i++) {
    deepest = Math.max(deepest, Math.abs(shape[i]!));
    if (i === directions.length) break;
    const [a, b] = [shape[i]! - directions[i]!, shape[i + 1]! - directions[i]!];
    deepest = Math.max(deepest, SPAN_WEIGHT * Math.abs(a), SPAN_WEIGHT * Math.abs(b));
  }
  return deepest;
}

/**
 * A span that bends against its own chord misleads the shallow start sooner than one that merely leans (by
 * trial).
 */
const SPAN_WEIGHT = 1.3;
