import type { Point } from '../curves/point.ts';

/** x′ = a·x + c·y + e, y′ = b·x + d·y + f, as PDF writes it (ISO 32000-1, 8.3.3). */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const apply = ([a, b, c, d, e, f]: Affine, { x, y }: Point): Point => ({
  x: a * x + c * y + e,
  y: b * x + d * y + f,
});

/** A turn about the origin, counter-clockwise, degrees; quarter turns are exact. */
export function turning(degrees: number): Affine {
  const quarters = degrees / 90;
  if (Number.isInteger(quarters)) {
    const [cos, sin] = QUARTERS[((quarters % 4) + 4) % 4] ?? [1, 0];
    return [cos, sin, -sin, cos, 0, 0];
  }
  const angle = (degrees * Math.PI) / 180;
  return [Math.cos(angle), Math.sin(angle), -Math.sin(angle), Math.cos(angle), 0, 0];
}

const QUARTERS: readonly (readonly [cos: number, sin: number])[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

export const shifted = ([a, b, c, d, e, f]: Affine, x: number, y: number): Affine => [
  a,
  b,
  c,
  d,
  e + x,
  f + y,
];

export const enlarged = (matrix: Affine, k: number): Affine => {
  const [a, b, c, d, e, f] = matrix;
  return [a * k, b * k, c * k, d * k, e * k, f * k];
};

/** The way back; the matrix must have an inverse, as every turn, shift and scale has. */
export function inverse([a, b, c, d, e, f]: Affine): Affine {
  const area = a * d - b * c;
  return [d / area, -b / area, -c / area, a / area, (c * f - d * e) / area, (b * e - a * f) / area];
}
