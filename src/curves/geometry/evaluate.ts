import { firstOf, lastOf } from '../../units/checked.ts';
import { integrate } from '../numeric/gauss-legendre.ts';
import { elasticaStates } from './pieces/elastica-series.ts';
import { ellipseLength, paramEllipse } from './pieces/half-ellipse.ts';
import type { ArcSegment, CubicSegment, LineSegment, Piece } from './pieces/piece.ts';
import { taperedStates } from './pieces/tapered-series.ts';
import { add, angleFrom, cross, direction, distance, lerp, type Point, scale } from './point.ts';

export interface CurvePoint extends Point {
  /** The tangent's direction, radians counterclockwise from the reference line. */
  readonly angle: number;
  /** 1/mm, positive where the curve turns left. */
  readonly curvature: number;
  /** How fast the place moves with the parameter u, mm: the piece's length where u runs by length. */
  readonly speed: number;
}

/** By u, mm. */
export const derivative = ({ angle, speed }: CurvePoint): Point => scale(direction(angle), speed);

function paramLine({ from, to }: LineSegment): (u: number) => CurvePoint {
  const angle = angleFrom(from, to);
  const speed = distance(from, to);
  return (u) => {
    const { x, y } = lerp(from, to, u);
    return { x, y, angle, curvature: 0, speed };
  };
}

function paramArc({ centre, radius, start, sweep }: ArcSegment): (u: number) => CurvePoint {
  const turn = Math.sign(sweep);
  const speed = radius * Math.abs(sweep);
  return (u) => {
    const at = start + sweep * u;
    const { x, y } = add(centre, scale(direction(at), radius));
    return { x, y, angle: at + (turn * Math.PI) / 2, curvature: turn / radius, speed };
  };
}

/** By Bernstein's polynomials. */
export function cubicPoint([p, q, r, s]: CubicSegment['controls'], u: number): Point {
  const v = 1 - u;
  const a = v * v * v;
  const b = v * v * u * 3;
  const c = v * u * u * 3;
  const d = u * u * u;
  return { x: a * p.x + b * q.x + c * r.x + d * s.x, y: a * p.y + b * q.y + c * r.y + d * s.y };
}

function cubicDerivative([p, q, r, s]: CubicSegment['controls'], u: number): Point {
  const v = 1 - u;
  const a = 3 * v * v;
  const b = 6 * v * u;
  const c = 3 * u * u;
  return {
    x: a * (q.x - p.x) + b * (r.x - q.x) + c * (s.x - r.x),
    y: a * (q.y - p.y) + b * (r.y - q.y) + c * (s.y - r.y),
  };
}

/** Where two controls coincide at an end the tangent is the limit, towards the next control that differs. */
function paramCubic({ controls }: CubicSegment): (u: number) => CurvePoint {
  const [p0, p1, p2, p3] = controls;
  return (u) => {
    const { x, y } = cubicPoint(controls, u);
    const first = cubicDerivative(controls, u);
    const second = {
      x: 6 * ((1 - u) * (p2.x - 2 * p1.x + p0.x) + u * (p3.x - 2 * p2.x + p1.x)),
      y: 6 * ((1 - u) * (p2.y - 2 * p1.y + p0.y) + u * (p3.y - 2 * p2.y + p1.y)),
    };
    const speed = Math.hypot(first.x, first.y);
    if (speed > 0) {
      const curvature = cross(first, second) / speed ** 3;
      return { x, y, angle: Math.atan2(first.y, first.x), curvature, speed };
    }
    const towards = u < 0.5 ? second : scale(second, -1);
    return { x, y, angle: Math.atan2(towards.y, towards.x), curvature: 0, speed };
  };
}

/** Places along a piece by u from 0 (its start) to 1 (its end); by length but for a cubic and an ellipse. */
export function paramCurve(piece: Piece): (u: number) => CurvePoint {
  switch (piece.type) {
    case 'line':
      return paramLine(piece);
    case 'arc':
      return paramArc(piece);
    case 'cubic':
      return paramCubic(piece);
    case 'elastica': {
      const state = elasticaStates(piece);
      return (u) => {
        const { x, y, angle, curvature } = state(u * piece.length);
        return { x, y, angle, curvature, speed: piece.length };
      };
    }
    case 'tapered': {
      const state = taperedStates(piece);
      return (u) => {
        const { x, y, angle, curvature } = state(u);
        return { x, y, angle, curvature, speed: piece.length };
      };
    }
    case 'ellipse':
      return paramEllipse(piece);
  }
}

/** For many places on the same piece keep `paramCurve(piece)`. */
export const evaluate = (piece: Piece, u: number): CurvePoint => paramCurve(piece)(u);
export const pieceStart = (piece: Piece): CurvePoint => evaluate(piece, 0);
export const pieceEnd = (piece: Piece): CurvePoint => evaluate(piece, 1);
/** Places at both ends of a piece and evenly between them. */
export const samplePiece = (piece: Piece, steps: number): CurvePoint[] =>
  Array.from({ length: steps + 1 }, (_, i) => i / steps).map(paramCurve(piece));
export const pathEnds = (pieces: readonly Piece[]) =>
  [pieceStart(firstOf(pieces)), pieceEnd(lastOf(pieces))] as const;

/** Parts in which a cubic is measured: as a rule of 20 Gauss points each gives its length to 1e-10. */
const LENGTH_PARTS = 8;
/** Largest change of a part's length, as a share of the control polygon's, when it is measured in halves. */
const LENGTH_TOLERANCE = 1e-11;
/** Halvings of a part round a cusp, where the speed falls to 0: each quarters the error, and 20 leave 1e-12. */
const MAX_LENGTH_HALVINGS = 20;

/** In mm: exact but for a cubic, whose length is good to 1e-10 of its control polygon's. */
export function pieceLength(piece: Piece): number {
  switch (piece.type) {
    case 'line':
      return distance(piece.from, piece.to);
    case 'arc':
      return piece.radius * Math.abs(piece.sweep);
    case 'elastica':
    case 'tapered':
      return piece.length;
    case 'ellipse':
      return ellipseLength(piece);
    case 'cubic':
      return cubicLength(piece);
  }
}

function cubicLength({ controls }: CubicSegment): number {
  const [p, q, r, s] = controls;
  const speed = (u: number): number => {
    const { x, y } = cubicDerivative(controls, u);
    return Math.hypot(x, y);
  };
  const tolerance = LENGTH_TOLERANCE * (distance(p, q) + distance(q, r) + distance(r, s));
  const measure = (from: number, to: number, whole: number, halvings: number): number => {
    const middle = (from + to) / 2;
    const [left, right] = [integrate(speed, from, middle), integrate(speed, middle, to)];
    if (Math.abs(left + right - whole) <= tolerance || halvings === 0) return whole;
    return measure(from, middle, left, halvings - 1) + measure(middle, to, right, halvings - 1);
  };
  let total = 0;
  for (let i = 0; i < LENGTH_PARTS; i++) {
    const [from, to] = [i / LENGTH_PARTS, (i + 1) / LENGTH_PARTS];
    total += measure(from, to, integrate(speed, from, to), MAX_LENGTH_HALVINGS);
  }
  return total;
}

export const piecesLength = (pieces: readonly Piece[]): number =>
  pieces.reduce((sum, piece) => sum + pieceLength(piece), 0);
