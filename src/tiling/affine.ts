import type { Point } from '../curves/point.ts';

/** x′ = a·x + c·y + e, y′ = b·x + d·y + f, as PDF writes it (ISO 32000-1, 8.3.3). */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const apply = ([a, b, c, d, e, f]: Affine, { x, y }: Point): Point => ({
  x: a * x + c * y + e,
  y: b * x + d * y + f,
});
