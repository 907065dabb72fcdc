import { ellipticIntegrals } from '../../numeric/elliptic-integrals.ts';
import { ChordFrame } from '../chord-frame.ts';
import { add, distance, lerp, type Point, scale } from '../point.ts';
import type { EllipseSegment } from './piece.ts';

/** Places by the eccentric angle φ = π(1 − u): the shadow of a point going evenly round a half circle. */
export function paramEllipse({ from, to, rise }: EllipseSegment) {
  const frame = new ChordFrame(from, to);
  const centre = lerp(from, to, 0.5);
  const half = frame.length / 2;
  const [along, across] = [scale(frame.along, half), scale(frame.normal, rise)];
  return (u: number): Point & { angle: number; curvature: number; speed: number } => {
    // Both from the nearer end, so that the half ends on the chord and square to it.
    const near = Math.PI * Math.min(u, 1 - u);
    const [cos, sin] = [u <= 0.5 ? -Math.cos(near) : Math.cos(near), Math.sin(near)];
    const pace = Math.hypot(half * sin, rise * cos);
    const { x, y } = add(centre, add(scale(along, cos), scale(across, sin)));
    return {
      x,
      y,
      angle: frame.angle + Math.atan2(-rise * cos, half * sin),
      curvature: (-half * rise) / pace ** 3,
      speed: Math.PI * pace,
    };
  };
}

/** 2·a·E mm with the longer half axis a and the shorter b, k′ = b/a (DLMF 19.9.9). */
export function ellipseLength({ from, to, rise }: EllipseSegment): number {
  const [half, height] = [distance(from, to) / 2, Math.abs(rise)];
  const longer = Math.max(half, height);
  return 2 * longer * ellipticIntegrals(Math.min(half, height) / longer).E;
}
