import type { Point } from './point.ts';

/** x′ = a·x + c·y + e, y′ = b·x + d·y + f, as PDF writes it (ISO 32000-1, 8.3.3). */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const IDENTITY: Affine = [1, 0, 0, 1, 0, 0];

export const transformPoint = ([a, b, c, d, e, f]: Affine, { x, y }: Point): Point => ({
  x: a * x + c * y + e,
  y: b * x + d * y + f,
});

export const isReflection = ([a, b, c, d]: Affine): boolean => a * d - b * c < 0;

/** First the inner one, then the outer. */
export const multiply = ([a, b, c, d, e, f]: Affine, [p, q, r, s, t, u]: Affine): Affine => [
  a * p + c * q,
  b * p + d * q,
  a * r + c * s,
  b * r + d * s,
  a * t + c * u + e,
  b * t + d * u + f,
];

/** A turn about the origin, counter-clockwise, degrees; quarter turns are exact. */
export function rotate(degrees: number): Affine {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = QUARTER_TURNS[(((degrees / 90) % 4) + 4) % 4] ?? [Math.cos(angle), Math.sin(angle)];
  return [cos, sin, -sin, cos, 0, 0];
}

const QUARTER_TURNS: readonly (readonly [cos: number, sin: number])[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

/** The matrix followed by a shift, to the right and up. */
export const translate = (matrix: Affine, x: number, y: number): Affine =>
  multiply([1, 0, 0, 1, x, y], matrix);

/** The matrix followed by an even scale about the origin. */
export const scaleMatrix = (matrix: Affine, k: number): Affine => multiply([k, 0, 0, k, 0, 0], matrix);

export function invert([a, b, c, d, e, f]: Affine): Affine {
  const area = a * d - b * c;
  return [d / area, -b / area, -c / area, a / area, (c * f - d * e) / area, (b * e - a * f) / area];
}
