import { type CurvePoint, cubicPoint, derivative, paramCurve } from './evaluate.ts';
import { type CubicSegment, isSegment, type Piece, type Segment } from './pieces/piece.ts';
import { add, distance, scale, subtract, toPoint } from './point.ts';
import { FIT_MM } from './tolerance.ts';

/** Halvings of a stretch: smooth curves need 2 to 5, the parallel of the flattest half ellipse 40 at its sharp ends. */
const MAX_DEPTH = 44;

/** A Hermite cubic's error is t²(1 − t)² times the fourth derivative: largest in the middle, or a fifth beside it. */
const PROBES = [0.2, 0.35, 0.5, 0.65, 0.8];

/** Between probes the error may be larger by this much at most (measured in the tests: under 4%). */
const PROBE_MARGIN = 0.9;

/** With the ends and velocities of their stretches, halved until all probes are within `tolerance` (mm). */
export function fitCubics(
  run: (u: number) => CurvePoint,
  from: number,
  to: number,
  tolerance: number,
): CubicSegment[] {
  const cubics: CubicSegment[] = [];
  const span = (a: number, b: number, start: CurvePoint, end: CurvePoint, depth: number): void => {
    const third = (b - a) / 3;
    const leaving = add(start, scale(derivative(start), third));
    const arriving = subtract(end, scale(derivative(end), third));
    const controls = [toPoint(start), leaving, arriving, toPoint(end)] as const;
    const off = Math.max(...PROBES.map((t) => distance(cubicPoint(controls, t), run(a + (b - a) * t))));
    if (off <= tolerance * PROBE_MARGIN) cubics.push({ type: 'cubic', controls });
    else if (depth === MAX_DEPTH)
      throw new Error(`fit: no cubic within ${tolerance} mm after ${depth} halvings`);
    else {
      const middle = (a + b) / 2;
      const halfway = run(middle);
      span(a, middle, start, halfway, depth + 1);
      span(middle, b, halfway, end, depth + 1);
    }
  };
  span(from, to, run(from), run(to), 0);
  return cubics;
}

/** The path that writers draw for exact pieces: lines, arcs and cubics as they are, the rest fitted. */
export const fitPath = (pieces: readonly Piece[], tolerance = FIT_MM): Segment[] =>
  pieces.flatMap((piece) => (isSegment(piece) ? [piece] : fitCubics(paramCurve(piece), 0, 1, tolerance)));
