import { firstOf, lastOf } from '../units/checked.ts';
import type { Curve } from './curve.ts';
import { ChordFrame } from './geometry/chord-frame.ts';
import { type CurvePoint, paramCurve, piecesLength } from './geometry/evaluate.ts';
import { minimizeAlong } from './geometry/extrema.ts';
import type { Piece } from './geometry/pieces/piece.ts';
import { angleDifference, angleFrom, cross, direction, type Point, toPoint } from './geometry/point.ts';
import { JOIN_MM } from './geometry/tolerance.ts';
import { rootsOn, SAMPLES_PER_PIECE } from './numeric/roots-and-minima.ts';

/** The figures of one run that a maker asks for. */
export interface Figures {
  /** Along the curve, mm. */
  readonly length: number;
  /** Farthest from the run's own chord; absent for a straight run. */
  readonly apex?: Apex;
  /** Where it bends most sharply, its radius mm, > 0; absent for a straight run. */
  readonly tightest?: { readonly radius: number; readonly at: Point };
  /** Tangent directions at both ends, counter-clockwise from the reference line; within half a turn of the chord’s. */
  readonly endAngles: readonly [start: number, end: number];
  /** Where the curve changes from hollow to round. */
  readonly inflections: readonly Point[];
}

export interface Apex {
  readonly at: Point;
  /** Distance from the chord, always positive. */
  readonly rise: number;
}

/** A chord that climbs by more, radians: what lies farthest from it is in the middle of a slope, and not the highest. */
const MAX_APEX_SLOPE = (5 * Math.PI) / 180;

export type ApexName = 'apex' | 'most rise';

/** What a maker calls the place farthest from the chord. */
export const apexName = ({ from, to }: Pick<Curve, 'from' | 'to'>): ApexName =>
  Math.abs(angleFrom(from, to)) > MAX_APEX_SLOPE ? 'most rise' : 'apex';

/** Where the tangent runs along the chord, to 1e-12 of it unless nearly straight; undefined under a rise of JOIN_MM. */
export function apexOf(pieces: readonly Piece[], from: Point, to: Point): Apex | undefined {
  const frame = new ChordFrame(from, to);
  let best: Apex | undefined;
  for (const piece of pieces) {
    const at = paramCurve(piece);
    // A join counts as well: rounding can hide an apex that falls exactly between two pieces.
    for (const u of [...rootsOn((v) => cross(frame.along, direction(at(v).angle)), SAMPLES_PER_PIECE), 1]) {
      const place = toPoint(at(u));
      const rise = Math.abs(frame.height(place));
      if (rise >= JOIN_MM && rise > (best?.rise ?? 0)) best = { at: place, rise };
    }
  }
  return best;
}

function tightestOf(pieces: readonly Piece[]): { radius: number; at: Point } | undefined {
  let best: CurvePoint | undefined;
  for (const piece of pieces) {
    const place = minimizeAlong(piece, ({ curvature }) => -Math.abs(curvature));
    if (Math.abs(place.curvature) > Math.abs(best?.curvature ?? 0)) best = place;
  }
  return best && { radius: 1 / Math.abs(best.curvature), at: toPoint(best) };
}

/** The sharpest bend to the left (1) or to the right (-1) of its travel, 1/mm; 0 where there is none. */
export const sharpestBend = (pieces: readonly Piece[], side: 1 | -1): number =>
  pieces.reduce((most, piece) => {
    const { curvature } = minimizeAlong(piece, (place) => -side * place.curvature);
    return Math.max(most, side * curvature);
  }, 0);

/** Curvature below this share of the tightest counts as none: the rounding of a free end. */
const STRAIGHT_SHARE = 1e-9;

function inflectionsOf(pieces: readonly Piece[], tightest: number): Point[] {
  const found: Point[] = [];
  let last: CurvePoint | undefined;
  for (const piece of pieces) {
    const at = paramCurve(piece);
    for (let i = 0; i <= SAMPLES_PER_PIECE; i++) {
      const place = at(i / SAMPLES_PER_PIECE);
      if (Math.abs(place.curvature) < STRAIGHT_SHARE * tightest) continue;
      if (last && Math.sign(last.curvature) * place.curvature < 0) found.push(inflectionBefore(at, i, last));
      last = place;
    }
  }
  return found;
}

function inflectionBefore(at: (u: number) => CurvePoint, i: number, last: CurvePoint): Point {
  if (i === 0) return toPoint(last);
  const roots = rootsOn((v) => at((i - 1 + v) / SAMPLES_PER_PIECE).curvature, 1);
  return toPoint(at((i - 1 + (roots.at(-1) ?? 0)) / SAMPLES_PER_PIECE));
}

/** Measured on the exact pieces: lengths in mm, angles in radians. */
export function figuresOf(curve: Curve): Figures {
  const { exact, from, to } = curve;
  const apex = apexOf(exact, from, to);
  const tightest = tightestOf(exact);
  const chord = angleFrom(from, to);
  const near = (angle: number): number => chord + angleDifference(chord, angle);
  return {
    length: piecesLength(exact),
    ...(apex && { apex }),
    ...(tightest && { tightest }),
    endAngles: [near(paramCurve(firstOf(exact))(0).angle), near(paramCurve(lastOf(exact))(1).angle)],
    inflections: tightest ? inflectionsOf(exact, 1 / tightest.radius) : [],
  };
}
