import { nailForApex as nailed } from '../../src/curves/elastica/nail-for-apex.ts';
import type { StripEnds } from '../../src/curves/elastica/solve-strip.ts';
import type { Point } from '../../src/curves/geometry/point.ts';
import { Fault } from '../../src/units/fault.ts';

export const nailForApex = (...given: Parameters<typeof nailed>) => nailed(...given).nail;

export const [FROM, TO]: readonly [Point, Point] = [
  { x: 0, y: 0 },
  { x: 1000, y: 0 },
];
export const HELD: StripEnds = { start: { held: 0 }, end: { held: 0 } };
export const MIXED: StripEnds = { start: { held: 0 }, end: 'free' };

export const faultOf = (apex: Point, ends: StripEnds, to = TO): Fault => {
  try {
    nailForApex(FROM, to, apex, ends);
  } catch (fault) {
    if (fault instanceof Fault) return fault;
    throw fault;
  }
  throw new Error('a nail was found');
};

/** The apex that the fault names as the nearest. */
export function nearest(apex: Point, ends: StripEnds, to = TO): Point {
  const told = /nearest possible apex is at station (-?[\d.]+) mm, offset (-?[\d.]+) mm/.exec(
    faultOf(apex, ends, to).message,
  )!;
  return { x: Number(told[1]), y: Number(told[2]) };
}
