import { add, cross, distance, dot, type Point, scale, subtract } from '../geometry/point.ts';

/** An arc by its ends and its bulge, tan(sweep/4): positive counterclockwise, 0 for a line. No number grows as it flattens. */
export interface BulgedArc {
  readonly from: Point;
  readonly to: Point;
  readonly bulge: number;
}

export function arcFromTangent(from: Point, tangent: Point, to: Point): BulgedArc {
  const chord = subtract(to, from);
  // The chord is at half the sweep to the tangent.
  return { from, to, bulge: cross(tangent, chord) / (Math.hypot(chord.x, chord.y) + dot(tangent, chord)) };
}

export function arcToTangent(from: Point, to: Point, tangent: Point): BulgedArc {
  const { bulge } = arcFromTangent(to, scale(tangent, -1), from);
  return { from, to, bulge: -bulge };
}

/** Equal tangent lengths (Bolton 1975, "Biarc curves", Computer-Aided Design 7); undefined where there is none. */
export function biarc(
  from: Point,
  leave: Point,
  to: Point,
  reach: Point,
): [BulgedArc, BulgedArc] | undefined {
  const chord = subtract(to, from);
  const across = dot(chord, chord);
  const ahead = dot(chord, add(leave, reach));
  const bent = 2 * (1 - dot(leave, reach));
  const length = across / (ahead + Math.sqrt(ahead ** 2 + bent * across));
  if (!(length > 0 && Number.isFinite(length))) return undefined;
  const middle = scale(add(add(from, scale(leave, length)), subtract(to, scale(reach, length))), 0.5);
  return [arcFromTangent(from, leave, middle), arcToTangent(middle, to, reach)];
}

/** The point at a share u of an arc's length. */
export function pointOnArc({ from, to, bulge }: BulgedArc, u: number): Point {
  const half = 2 * Math.atan(bulge);
  // Seen from the start, the chord to the point is turned from the whole chord by the rest of half the sweep.
  const share = half === 0 ? u : Math.sin(u * half) / Math.sin(half);
  const turn = (u - 1) * half;
  const [cos, sin] = [share * Math.cos(turn), share * Math.sin(turn)];
  const chord = subtract(to, from);
  return { x: from.x + chord.x * cos - chord.y * sin, y: from.y + chord.x * sin + chord.y * cos };
}

/** Distance of a point from the arc's circle, mm, positive to the right; without its center, flat arcs keep their digits. */
export function signedDistanceToCircle(arc: BulgedArc): (place: Point) => number {
  const { from, tangent, curvature } = arcStart(arc);
  if (from.x === arc.to.x && from.y === arc.to.y) return (place) => distance(place, from);
  return ({ x, y }) => {
    const dx = x - from.x;
    const dy = y - from.y;
    const off = curvature * (dx * dx + dy * dy) - 2 * (tangent.x * dy - tangent.y * dx);
    return off / (1 + Math.sqrt(Math.max(0, 1 + curvature * off)));
  };
}

export function tangentAt(arc: BulgedArc, { x, y }: Point): Point {
  const { from, tangent, curvature } = arcStart(arc);
  const across = { x: tangent.x - curvature * (y - from.y), y: tangent.y + curvature * (x - from.x) };
  return scale(across, 1 / Math.hypot(across.x, across.y));
}

function arcStart({ from, to, bulge }: BulgedArc): { from: Point; tangent: Point; curvature: number } {
  const chord = subtract(to, from);
  const length = Math.hypot(chord.x, chord.y);
  if (length === 0) return { from, tangent: { x: 1, y: 0 }, curvature: 0 };
  const turn = 1 + bulge ** 2;
  // The tangent at the start is the chord turned back by half the sweep, 2·atan(bulge).
  const [cos, sin] = [(1 - bulge ** 2) / turn, (-2 * bulge) / turn];
  const tangent = {
    x: (chord.x * cos - chord.y * sin) / length,
    y: (chord.x * sin + chord.y * cos) / length,
  };
  return { from, tangent, curvature: (4 * bulge) / (turn * length) };
}
