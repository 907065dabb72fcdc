import { itemAt } from '../../units/checked.ts';
import { type ChordGeometry, type StateVector, spanOffset } from './newton-many-pins.ts';

/** The pins of a strip in shares of its chord, from (0, 0) to (1, 0); angles of held ends to the chord, radians. */
export interface StripProblem {
  readonly stations: readonly number[];
  readonly heights: readonly number[];
  readonly start: number | undefined;
  readonly end: number | undefined;
}

/** The same stations with heights and held angles interpolated between two strips, at `share` 0 and 1. */
export function interpolateProblem(from: StripProblem, to: StripProblem, share: number): StripProblem {
  const mix = (a: number, b: number): number => a + (b - a) * share;
  const held = (a?: number, b?: number): number | undefined =>
    a === undefined || b === undefined ? undefined : mix(a, b);
  return {
    stations: to.stations,
    heights: to.heights.map((y, i) => mix(itemAt(from.heights, i), y)),
    start: held(from.start, to.start),
    end: held(from.end, to.end),
  };
}

export const flatProblem = ({ stations, heights, start, end }: StripProblem): StripProblem => ({
  stations,
  heights: heights.map(() => 0),
  start: start === undefined ? undefined : 0,
  end: end === undefined ? undefined : 0,
});

/** The span chords. Stations rise, so no direction leaves ±π/2 and none needs unwrapping. */
export function chordGeometry({ stations, heights, start, end }: StripProblem): ChordGeometry {
  const chords = new Float64Array(stations.length - 1);
  const directions = new Float64Array(stations.length - 1);
  for (let i = 0; i < chords.length; i++) {
    const dx = itemAt(stations, i + 1) - itemAt(stations, i);
    const dy = itemAt(heights, i + 1) - itemAt(heights, i);
    chords[i] = Math.hypot(dx, dy);
    directions[i] = Math.atan2(dy, dx);
  }
  return { chords, directions, start, end };
}

/** The state of the straight strip. */
export function straightState(pins: number): StateVector {
  const state = new Float64Array(spanOffset(pins, pins - 1));
  for (let i = 0; i < pins - 1; i++) state[spanOffset(pins, i) + 2] = 1;
  return state;
}

/** Cubic beams over each span's own chord: a natural or clamped cubic spline, but in angles. */
export function shallowState(geometry: ChordGeometry): StateVector {
  const pins = geometry.chords.length + 1;
  const state = new Float64Array(spanOffset(pins, pins - 1));
  state.set(shallowAngles(geometry));
  for (const [i, [a, b]] of spanAngles(geometry, state).entries())
    state.set([-4 * a - 2 * b, 6 * (a + b), 1 + (2 * a * a - a * b + 2 * b * b) / 30], spanOffset(pins, i));
  return state;
}

const spanAngles = ({ directions }: ChordGeometry, state: StateVector): [start: number, end: number][] =>
  [...directions].map((way, i) => [itemAt(state, i) - way, itemAt(state, i + 1) - way]);

/** Elimination without the scaling of `solveTridiagonal`, which would move the last digits of every strip. */
function shallowAngles({ chords, directions, start, end }: ChordGeometry): number[] {
  const last = chords.length;
  let [pivot, known, coupling] = [1, 0, 0];
  const rows = Array.from({ length: last + 1 }, (_, i) => {
    const held = i === 0 ? start : i === last ? end : undefined;
    const before = i === 0 ? 0 : 1 / itemAt(chords, i - 1);
    const after = i === last ? 0 : 1 / itemAt(chords, i);
    const bending = 3 * ((directions[i - 1] ?? 0) * before + (directions[i] ?? 0) * after);
    const share = held === undefined ? before / pivot : 0;
    pivot = (held === undefined ? 2 * (before + after) : 1) - share * coupling;
    known = (held ?? bending) - share * known;
    coupling = held === undefined ? after : 0;
    return { pivot, known, coupling };
  });
  const angles: number[] = [];
  for (const row of rows.reverse())
    angles.push((row.known - row.coupling * (angles.at(-1) ?? 0)) / row.pivot);
  return angles.reverse();
}

/** A span that bends against its own chord misleads the shallow start sooner than one that merely leans (by trial). */
const SPAN_WEIGHT = 1.3;

/** The largest angle, radians, between a shallow strip and its chord, or its spans' own chords. */
export function nonlinearity(geometry: ChordGeometry, state: StateVector): number {
  const toChord = state.subarray(0, geometry.chords.length + 1);
  const toSpans = spanAngles(geometry, state).flat();
  return Math.max(...toChord.map(Math.abs), SPAN_WEIGHT * Math.max(...toSpans.map(Math.abs)));
}
