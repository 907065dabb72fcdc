import { Fault } from '../../units/fault.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import type { ElasticaSegment } from '../geometry/pieces/piece.ts';
import { angleFrom, distance, type Point, turnBetween } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { rootBetween } from '../numeric/roots-and-minima.ts';
import {
  elasticaS,
  elasticaY,
  freeEndAngle,
  GAUSS_CONSTANT,
  nailCurvature,
  nailEndAngle,
  QUARTER_Y,
} from './rectangular-elastica.ts';

/*
 * Each span is a rectangular elastica from a free end, known by the angle it turns up to the nail, a from A, b from B:
 * f(a) + f(b) = the angle between the span chords, g(a)/g(b) = |AN|/|NB|, with f, g of rectangular-elastica.ts.
 */

/** f′(a) and (ln g)′(a). */
function derivatives(a: number): { angle: number; logBend: number } {
  const [sin, cos, y] = [Math.sin(a), Math.cos(a), elasticaY(a)];
  const across = 4 * sin + y * y;
  return {
    angle: 1 - (2 * sin - (y * cos) / Math.sqrt(sin)) / across,
    logBend: (cos / sin + (4 * cos + 2 * y * Math.sqrt(sin)) / across) / 2,
  };
}

/** Newton steps before giving up; from the shallow start the deepest stable strip needs 9. */
const MAX_STEPS = 40;
/** Newton's method doubles its digits: after a step this small, relative to the turn, no error is left. */
const STEP_TOLERANCE = 1e-11;

/** The turns at the nail in both spans, radians; in the flattest strip a → 1.5·angle·span share. */
function solveNailAngles(angle: number, spanA: number, spanB: number): [a: number, b: number] {
  let a = (1.5 * angle * spanA) / (spanA + spanB);
  let b = (1.5 * angle * spanB) / (spanA + spanB);
  for (let i = 0; i < MAX_STEPS; i++) {
    const [at, bt] = [derivatives(a), derivatives(b)];
    const off = nailEndAngle(a) + nailEndAngle(b) - angle;
    const ratio = Math.log(nailCurvature(a) / nailCurvature(b)) - Math.log(spanA / spanB);
    const determinant = -at.angle * bt.logBend - bt.angle * at.logBend;
    const da = (off * bt.logBend + ratio * bt.angle) / determinant;
    const db = (off * at.logBend - ratio * at.angle) / determinant;
    // Stay inside (0, π): at most halfway to either bound in one step.
    const [a0, b0] = [a, b];
    a = Math.min(Math.max(a + da, a / 2), (a + Math.PI) / 2);
    b = Math.min(Math.max(b + db, b / 2), (b + Math.PI) / 2);
    if (Math.abs(a - a0) <= STEP_TOLERANCE * a && Math.abs(b - b0) <= STEP_TOLERANCE * b) return [a, b];
  }
  const problem =
    'fairlath could not calculate the batten over this nail. Move the nail a little, or use an arc.';
  throw new Fault('batten.not-found', problem);
}

/** The rise per chord of one full lobe at `share` of the chord; on the safe side within 0.061 of an end. */
export function freeRiseLimit(share: number): number {
  const near = Math.min(share, 1 - share);
  const target = 2 * QUARTER_Y * near;
  const turn = rootBetween((u) => elasticaY(u) - target, 0, Math.PI / 2) ?? Math.PI / 2;
  return Math.sqrt(Math.sin(turn)) * GAUSS_CONSTANT;
}

/** To 1e-12 of the chord. @throws Fault `batten.out-of-order`, `batten.too-high`, `batten.not-found` */
export function solveThreePinStrip(a: Point, nail: Point, b: Point): [ElasticaSegment, ElasticaSegment] {
  assertSolvable(a, nail, b);
  const turn = turnBetween(a, nail, b);
  const [spanA, spanB] = [distance(a, nail), distance(nail, b)];
  // A strip over the chord turns right: side 1. Under it, everything mirrors.
  const side = turn > 0 ? -1 : 1;
  if (Math.abs(turn) < STRAIGHT_ANGLE) return [straightSpan(a, nail), straightSpan(nail, b)];
  const [turnA, turnB] = solveNailAngles(Math.abs(turn), spanA, spanB);
  const curvature = nailCurvature(turnA) / spanA;
  const [forceA, forceB] = [curvature ** 2 / (2 * Math.sin(turnA)), curvature ** 2 / (2 * Math.sin(turnB))];
  const angle = angleFrom(a, nail) + side * freeEndAngle(turnA);
  return [
    {
      type: 'elastica',
      from: a,
      angle,
      curvature: 0,
      curvatureRate: -side * forceA,
      length: elasticaS(turnA) / Math.sqrt(2 * forceA),
    },
    {
      type: 'elastica',
      from: nail,
      angle: angle - side * turnA,
      curvature: -side * curvature,
      curvatureRate: side * forceB * Math.cos(turnB),
      length: elasticaS(turnB) / Math.sqrt(2 * forceB),
    },
  ];
}

/** Pins this nearly in line, radians, are in line: doubles know the direction of a span no better. */
const STRAIGHT_ANGLE = 1e-15;

function straightSpan(from: Point, to: Point): ElasticaSegment {
  const [angle, length] = [angleFrom(from, to), distance(from, to)];
  return { type: 'elastica', from, angle, curvature: 0, curvatureRate: 0, length };
}

function assertSolvable(a: Point, nail: Point, b: Point): void {
  const frame = new ChordFrame(a, b);
  const [chord, station, rise] = [frame.length, frame.station(nail), Math.abs(frame.height(nail))];
  if (!(station > JOIN_MM && station < chord - JOIN_MM))
    throw new Fault(
      'batten.out-of-order',
      (mm) =>
        `the nail at station ${mm(nail.x)} is not between the ends of the batten. Put it between ${mm(a.x)} and ${mm(b.x)}.`,
    );
  const limit = freeRiseLimit(station / chord) * chord;
  if (rise >= limit)
    throw new Fault(
      'batten.too-high',
      (mm) =>
        `this nail is too high: ${mm(rise)} off the chord at station ${mm(nail.x)}. ` +
        `A batten with free ends slips off above ${mm(limit)} there. Lower the nail, or use an arc.`,
    );
}
