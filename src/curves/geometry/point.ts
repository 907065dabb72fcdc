import { orient2d } from 'robust-predicates';

/** A place on the part. */
export interface Point {
  /** Station along the reference line, mm. */
  readonly x: number;
  /** Offset square off it, mm, up. */
  readonly y: number;
}

/** By station and offset, mm. */
export const point = (x: number, y: number): Point => ({ x, y });
/** Without what else a place on a curve has. */
export const toPoint = ({ x, y }: Point): Point => ({ x, y });
export const add = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });
export const subtract = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });
/** The vector a, k times as long. */
export const scale = (a: Point, k: number): Point => ({ x: a.x * k, y: a.y * k });
export const dot = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;
/** z of a × b: positive when b lies to the left of a. */
export const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;
/** Positive when p lies to the left of the way from a to b, negative to the right, 0 on their line: its sign is exact. */
export const sideOf = (a: Point, b: Point, p: Point): number => orient2d(b.x, b.y, a.x, a.y, p.x, p.y);
/** Whether the way from p to q meets the line through a and b, exactly. */
export const meetsLine = (p: Point, q: Point, a: Point, b: Point): boolean =>
  sideOf(a, b, p) * sideOf(a, b, q) <= 0;
export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);
/** At a share t of the way from a to b. */
export const lerp = (a: Point, b: Point, t: number): Point => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});
/** The unit vector at an angle counterclockwise from the reference line, radians. */
export const direction = (angle: number): Point => ({ x: Math.cos(angle), y: Math.sin(angle) });
/** The direction from a to b, radians in (−π, π]. */
export const angleFrom = (a: Point, b: Point): number => Math.atan2(b.y - a.y, b.x - a.x);
/** From one direction to another the shorter way, radians in (−π, π], left positive. */
export const angleDifference = (from: number, to: number): number =>
  Math.atan2(Math.sin(to - from), Math.cos(to - from));
/** How far the way from a to b turns at b towards c, radians, left positive. */
export const turnBetween = (a: Point, b: Point, c: Point): number => {
  const [ab, bc] = [subtract(b, a), subtract(c, b)];
  return Math.atan2(cross(ab, bc), dot(ab, bc));
};
export const leftNormal = (a: Point): Point => ({ x: -a.y, y: a.x });
