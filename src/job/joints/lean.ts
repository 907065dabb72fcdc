import { type Point, point, scale } from '../../curves/geometry/point.ts';
import type { Lean, Toward } from './joint-kind.ts';

export const LEAN_DIRECTIONS: Readonly<Record<Toward, Point>> = {
  right: point(1, 0),
  left: point(-1, 0),
  out: point(0, 1),
  in: point(0, -1),
};

export const TOWARD_WORDS: Readonly<Record<Toward, string>> = {
  left: 'toward the left end',
  right: 'toward the right end',
  out: 'away from the reference line',
  in: 'toward the reference line',
};

/** How far a leaning hole's axis is off at a depth under the face, mm. */
export const leanShift = (lean: Lean | undefined, depth: number): Point =>
  lean ? scale(LEAN_DIRECTIONS[lean.toward], depth * Math.tan(lean.by)) : point(0, 0);

/** The length of the hole in the face over the drill's diameter. */
export const leanStretch = (lean: Lean | undefined): number => (lean ? 1 / Math.cos(lean.by) : 1);
