import { firstOf, itemAt } from '../../units/checked.ts';
import { elasticaStates } from '../geometry/pieces/elastica-series.ts';
import { angleFrom, distance, type Point, point } from '../geometry/point.ts';
import { rootBetween } from '../numeric/roots-and-minima.ts';
import { solveEquilibrium } from './continuation.ts';
import { spanOffset } from './newton-many-pins.ts';
import { integrateSpan, newSpanEnd, type SpanEnd } from './shooting.ts';
import type { StripProblem } from './strip-problem.ts';

/*
 * Say the apex is left of the nail. Up to the apex the strip is one held along the chord there, and it continues as
 * the same elastica to the nail. Only its length beyond the apex is unknown: at the right place a strip held at its
 * tangent and led to the far end has the same curvature. The chord runs from (0, 0) to (1, 0), mirrored so that the
 * apex is above it and the nail to the right of the apex.
 */

export type HeldAngles = Pick<StripProblem, 'start' | 'end'>;

const rotateAngle = (angle: number | undefined, by: number): number | undefined =>
  angle === undefined ? undefined : angle - by;

type EndBending = Readonly<Pick<SpanEnd, 'curvature' | 'rate'>>;

const far = newSpanEnd();

/** Continuation need not locate the limit of a trial strip: whether it has one is enough. */
const COARSE_STEP = 0.1;

function solveSpan(
  a: Point,
  b: Point,
  start: number | undefined,
  end: number | undefined,
): [EndBending, EndBending] | undefined {
  const [chord, tilt] = [distance(a, b), angleFrom(a, b)];
  const held = { start: rotateAngle(start, tilt), end: rotateAngle(end, tilt) };
  const { share, state } = solveEquilibrium({ stations: [0, 1], heights: [0, 0], ...held }, COARSE_STEP);
  if (share < 1) return undefined;
  const at = spanOffset(2, 0);
  const [curvature, rate] = [itemAt(state, at), itemAt(state, at + 1)];
  integrateSpan(far, firstOf(state), curvature, rate, itemAt(state, at + 2));
  const inMeasure = (k: number, r: number): EndBending => ({ curvature: k / chord, rate: r / chord ** 2 });
  return [inMeasure(curvature, rate), inMeasure(far.curvature, far.rate)];
}

/** Possible nails for an apex above the chord, likely ones first. */
export function* candidateNails(apex: Point, held: HeldAngles): Generator<Point> {
  if (!(apex.x > 0 && apex.x < 1)) return;
  const left = solveSpan(point(0, 0), apex, held.start, 0)?.[1];
  const right = solveSpan(apex, point(1, 0), 0, held.end)?.[0];
  if (left && right && left.curvature === right.curvature) yield apex;
  const leans = Math.hypot(held.start ?? 0, held.end ?? 0) > FLAT_ANGLE;
  const sides = [
    function* onRight() {
      if (left) yield* nailsRightOfApex(apex, left, held.end, leans);
    },
    function* onLeft() {
      if (!right) return;
      const mirrored = { curvature: right.curvature, rate: -right.rate };
      const mirroredEnd = held.start === undefined ? undefined : -held.start;
      const nails = nailsRightOfApex(point(1 - apex.x, apex.y), mirrored, mirroredEnd, leans);
      for (const { x, y } of nails) yield point(1 - x, y);
    },
  ];
  // A nail that lifts the strip is on the side where the strip bends more sharply.
  if (left && right && left.curvature < right.curvature) sides.reverse();
  // Unless its ends bend the strip already, a nail can only lift it.
  if (!leans && left && right) sides.pop();
  for (const side of sides) yield* side();
}

/** An end held closer to the chord than this, radians, does not bend a strip by itself. */
const FLAT_ANGLE = 1e-9;

/** Places sampled along the elastica beyond the apex before a root is refined. */
const ROOT_SAMPLES = 24;

function* nailsRightOfApex(
  apex: Point,
  { curvature, rate }: EndBending,
  end: number | undefined,
  leans: boolean,
): Generator<Point> {
  // If it is hollow upwards, the apex would be its lowest point.
  if (curvature >= 0) return;
  const longest = 3 * (1 - apex.x + apex.y);
  const start = { from: apex, angle: 0, curvature, curvatureRate: rate } as const;
  const at = elasticaStates({ type: 'elastica', ...start, length: longest });
  /** Between the curvature of the elastica at s and that of the strip that continues to the far end. */
  const mismatch = (s: number): number => {
    const { x, y, angle, curvature: here } = at(s);
    const beyond = solveSpan({ x, y }, point(1, 0), angle, end)?.[0];
    return beyond ? here - beyond.curvature : Number.NaN;
  };
  /** The range of s: down to a height, up to the far end, or to where the elastica turns square to the chord. */
  const downTo = (lowest: number): number | undefined =>
    bracketedRoots((s) => {
      const { x, y, angle } = at(s);
      return Math.min(y - lowest, 1 - x, Math.PI / 2 - angle);
    }, longest).next().value;
  // A nail that lifts the strip is above the chord, and there is one root.
  const chord = downTo(0);
  const lifting = chord && rootBetween(mismatch, 0, chord);
  if (lifting !== undefined) yield point(at(lifting).x, at(lifting).y);
  // A strip that its ends already bend may be held down as well, even below the chord.
  const unsure = chord !== undefined && Number.isNaN(mismatch(chord));
  const last = leans ? downTo(-apex.y) : unsure ? chord : undefined;
  if (last) for (const root of bracketedRoots(mismatch, last)) yield point(at(root).x, at(root).y);
}

function* bracketedRoots(f: (s: number) => number, last: number): Generator<number, undefined> {
  let [s, value] = [0, f(0)];
  for (let i = 1; i <= ROOT_SAMPLES; i++) {
    const next = (last * i) / ROOT_SAMPLES;
    const after = f(next);
    const root = value * after <= 0 ? rootBetween(f, s, next) : undefined;
    if (root !== undefined) yield root;
    [s, value] = [next, after];
  }
  return undefined;
}
