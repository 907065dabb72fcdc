import { nailForApex as nailed } from '../../src/curves/elastica/nail-for-apex.ts';
import type { StripEnds } from '../../src/curves/elastica/solve-strip.ts';
import type { Point } from '../../src/curves/geometry/point.ts';
import { Fault } from '../../src/units/fault.ts';

export const nailForApex = (...given: Parameters<typeof nailed>) => nailed(...given).nail;

export const [FROM, TO] = [
  { x: 0, y: 0 },
  { x: 1000, y: 0 },
];
export const HELD: StripEnds = { start: { held: 0 }, end: { held: 0 } };
export const MIXED: StripEnds = { start: { held: 0 }, end: 'free' };

export const faultOf = (apex: Point, ends: StripEnds): Fault => {
  try {
    nailForApex(FROM, TO, apex, ends);
  } catch (fault) {
    if (fault instanceof Fault) return fault;
    throw fault;
  }
  throw new Error('a nail was found');
};

/** The station that the fault names as the nearest. */
export const nearest = (apex: Point, ends: StripEnds): number =>
  Number(/nearest it can do is ([\d.]+) mm/.exec(faultOf(apex, ends).message)![1]);
