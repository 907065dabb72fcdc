/** In space: along the part, across it, toward the reader. */
export type Vector = readonly [x: number, y: number, z: number];

export const deg = (radians: number): number => (radians * 180) / Math.PI;
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const scaled = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k];
export const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const unit = (a: Vector): Vector => scaled(a, 1 / Math.sqrt(dot(a, a)));
