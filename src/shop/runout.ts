import { combOf } from '../curves/comb.ts';
import type { Point } from '../curves/point.ts';
import type { Part } from '../part/part.ts';

/** Where a part's edge leaves the grain most, when the grain runs along the reference line. */
export interface Runout {
  readonly edge: string;
  readonly at: Point;
  /** How far along for one across: 10 is "1 in 10". */
  readonly along: number;
}

/** Shallower than this the grain runs from end to end of any part: 1 mm in a metre. */
const STRAIGHT = 1000;

/** The steepest place of the finished edges off the reference line; none where all run along it. */
export function grainRunout({ edges }: Part): Runout | undefined {
  const all = edges.flatMap(({ name, runs }) =>
    combOf(runs).map(({ x, y, angle }) => ({
      edge: name,
      at: { x, y },
      along: Math.abs(1 / Math.tan(angle)),
    })),
  );
  const steepest = all.reduce((a, b) => (b.along < a.along ? b : a));
  return steepest.along < STRAIGHT ? steepest : undefined;
}
