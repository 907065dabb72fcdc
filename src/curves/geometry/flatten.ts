import { type Box, inflate } from './bounds.ts';
import { paramCurve } from './evaluate.ts';
import type { Segment } from './pieces/piece.ts';
import { distance, dot, lerp, meetsLine, type Point, subtract } from './point.ts';

/** A straight stretch in place of a curve that lies close by. */
export interface Chord {
  readonly from: Point;
  readonly to: Point;
}

/** How far a chord may lie from its curve, mm: a tenth of a thin printed line. */
export const FLATTEN_MM = 0.01;

/** A quarter circle of 100 m radius takes 5,600 chords; more would be no workshop curve. */
const MAX_CHORDS = 10_000;

/** A path as chords, each stretch of it proven within `tolerance` of its chord, mm. */
export const flatten = (path: readonly Segment[], tolerance = FLATTEN_MM): Chord[] =>
  path.flatMap((segment) => flattenSegment(segment, tolerance));

function flattenSegment(segment: Segment, tolerance: number): Chord[] {
  if (segment.type === 'line') return [{ from: segment.from, to: segment.to }];
  const count = Math.min(MAX_CHORDS, Math.max(1, Math.ceil(chordCount(segment, tolerance))));
  const at = paramCurve(segment);
  let from = at(0);
  return Array.from({ length: count }, (_, i) => {
    const chord = { from, to: at((i + 1) / count) };
    from = chord.to;
    return chord;
  });
}

/** Arc: sagitta ≤ r·φ²/8. Cubic: √(d(d−1)/8 · L / ε), L the controls' greatest second difference (G. Wang, 1984). */
function chordCount(segment: Exclude<Segment, { type: 'line' }>, tolerance: number): number {
  if (segment.type === 'arc') return Math.abs(segment.sweep) * Math.sqrt(segment.radius / (8 * tolerance));
  const [p, q, r, s] = segment.controls;
  const bend = (a: Point, b: Point, c: Point): number =>
    distance({ x: a.x + c.x, y: a.y + c.y }, { x: 2 * b.x, y: 2 * b.y });
  return Math.sqrt((0.75 * Math.max(bend(p, q, r), bend(q, r, s))) / tolerance);
}

/** Whether the curve behind a chord may pass through a box (Liang–Barsky); never misses one that does. */
export function segmentIntersectsBox({ from, to }: Chord, box: Box): boolean {
  const { left, right, bottom, top } = inflate(box, FLATTEN_MM);
  let [enter, leave] = [0, 1];
  const sides: [step: number, room: number][] = [
    [from.x - to.x, from.x - left],
    [to.x - from.x, right - from.x],
    [from.y - to.y, from.y - bottom],
    [to.y - from.y, top - from.y],
  ];
  for (const [step, room] of sides) {
    if (step === 0 && room < 0) return false;
    if (step < 0) enter = Math.max(enter, room / step);
    if (step > 0) leave = Math.min(leave, room / step);
  }
  return enter <= leave;
}

export function closestPointOnChord({ from, to }: Chord, at: Point): Point {
  const way = subtract(to, from);
  const along = dot(subtract(at, from), way) / Math.max(dot(way, way), Number.MIN_VALUE);
  return lerp(from, to, Math.min(1, Math.max(0, along)));
}

/** Whether two chords, not the curves behind them, cross or touch. Two on one line count as touching, however far apart. */
export const chordsIntersect = (a: Chord, b: Chord): boolean =>
  meetsLine(b.from, b.to, a.from, a.to) && meetsLine(a.from, a.to, b.from, b.to);
