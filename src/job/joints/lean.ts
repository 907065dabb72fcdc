import { type Point, point, scale } from '../../curves/geometry/point.ts';
import type { Lean, Toward } from './joint-kind.ts';
import { isOnEdge, type OnSide } from './joint-side.ts';

export const LEAN_DIRECTIONS: Readonly<Record<Toward, Point>> = {
  right: point(1, 0),
  left: point(-1, 0),
  out: point(0, 1),
  in: point(0, -1),
};

export function towardWords({ toward }: Lean, joint: OnSide): string {
  if (toward === 'left' || toward === 'right') return `toward the ${toward} end`;
  return `${toward === 'out' ? 'away from' : 'toward'} the reference ${isOnEdge(joint) ? 'face' : 'line'}`;
}

/** How far a leaning hole's axis is off at a depth under the face, mm. */
export const leanShift = (lean: Lean | undefined, depth: number): Point =>
  lean ? scale(LEAN_DIRECTIONS[lean.toward], depth * Math.tan(lean.by)) : point(0, 0);

/** The length of the hole in the face over the drill's diameter. */
export const leanStretch = (lean: Lean | undefined): number => (lean ? 1 / Math.cos(lean.by) : 1);
