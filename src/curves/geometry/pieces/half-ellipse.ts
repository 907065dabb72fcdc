import { ellipticIntegrals } from '../../numeric/elliptic-integrals.ts';
import { add, angleFrom, direction, distance, leftNormal, lerp, type Point, scale } from '../point.ts';
import type { EllipseSegment } from './piece.ts';

interface EllipsePoint extends Point {
  readonly angle: number;
  readonly curvature: number;
  /** Change of place with u, mm. */
  readonly speed: number;
}

/** Places by the eccentric angle φ = π(1 − u): the shadow of a point going evenly round a half circle. */
export function paramEllipse({ from, to, rise }: EllipseSegment): (u: number) => EllipsePoint {
  const chord = angleFrom(from, to);
  const centre = lerp(from, to, 0.5);
  const half = distance(from, to) / 2;
  const [along, across] = [scale(direction(chord), half), scale(leftNormal(direction(chord)), rise)];
  return (u) => {
    // Both from the nearer end, so that the half ends on the chord and square to it.
    const near = Math.PI * Math.min(u, 1 - u);
    const [cos, sin] = [u <= 0.5 ? -Math.cos(near) : Math.cos(near), Math.sin(near)];
    const pace = Math.hypot(half * sin, rise * cos);
    const { x, y } = add(centre, add(scale(along, cos), scale(across, sin)));
    return {
      x,
      y,
      angle: chord + Math.atan2(-rise * cos, half * sin),
      curvature: (-half * rise) / pace ** 3,
      speed: Math.PI * pace,
    };
  };
}

/** Half the way round, mm: 2·a·E with the longer half axis a and the shorter b, k′ = b/a (DLMF 19.9.9). */
export function ellipseLength({ from, to, rise }: EllipseSegment): number {
  const [half, height] = [distance(from, to) / 2, Math.abs(rise)];
  const longer = Math.max(half, height);
  return 2 * longer * ellipticIntegrals(Math.min(half, height) / longer).E;
}
