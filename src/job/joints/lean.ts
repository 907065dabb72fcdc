import { type Point, point, scale } from '../../curves/geometry/point.ts';
import type { Lean, Toward } from './joint-kind.ts';

/** Unit vectors on the face. */
export const LEAN_DIRECTIONS: Readonly<Record<Toward, Point>> = {
  right: point(1, 0),
  left: point(-1, 0),
  out: point(0, 1),
  in: point(0, -1),
};

/** Which way a hole runs as it goes in. */
export const TOWARD_WORDS: Readonly<Record<Toward, string>> = {
  left: 'to the left end',
  right: 'to the right end',
  out: 'away from the reference line',
  in: 'to the reference line',
};

/** How far a leaning hole's axis has moved at a depth under the face, mm. */
export const leanShift = (lean: Lean | undefined, depth: number): Point =>
  lean ? scale(LEAN_DIRECTIONS[lean.toward], depth * Math.tan(lean.by)) : point(0, 0);

/** How many times as large as the drill is the hole that it opens in the face. */
export const leanStretch = (lean: Lean | undefined): number => (lean ? 1 / Math.cos(lean.by) : 1);
