import { firstOf, itemAt } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { distance, type Point } from '../geometry/point.ts';
import { followContinuation, solveEquilibrium, solveNearby } from './continuation.ts';
import { type StateVector, spanOffset } from './newton-many-pins.ts';
import { integrateSpan, newSpanEnd } from './shooting.ts';
import { chordGeometry, type StripProblem } from './strip-problem.ts';

const farEnd = newSpanEnd();

/** The nail's force on the strip, along the strip's left, for a chord and a stiffness of 1. */
function nailForce(pins: StripProblem, state: StateVector): number {
  const { chords, directions } = chordGeometry(pins);
  const first = spanOffset(3, 0);
  const [curvature, rate] = [itemAt(state, first), itemAt(state, first + 1)];
  integrateSpan(farEnd, firstOf(state) - firstOf(directions), curvature, rate, itemAt(state, first + 2));
  return itemAt(state, spanOffset(3, 1) + 1) / itemAt(chords, 1) ** 2 - farEnd.rate / firstOf(chords) ** 2;
}

const atHeight = (pins: StripProblem, height: number): StripProblem => ({ ...pins, heights: [0, height, 0] });

/** How far the nail is moved, as a share of the chord, to differentiate its force: half the digits of a double. */
const PROBE_RISE = 1e-6;

/** False once the nail has let go: raised further it would have to pull. */
export function isContactStable(pins: StripProblem, state: StateVector): boolean {
  const height = itemAt(pins.heights, 1);
  const side = Math.sign(height);
  const force = side * nailForce(pins, state);
  if (side === 0 || force >= 0) return true;
  const higher = atHeight(pins, height + side * PROBE_RISE);
  const lifted = solveNearby(higher, state);
  return lifted !== undefined && side * nailForce(higher, lifted) > force;
}

/** Highest rise that is followed, in chords. */
const MAX_RISE = 2;
const STEPS = 40;

/**
 * The greatest rise per chord, to 1e-8, before the strip snaps through or leaves the nail; undefined if the held ends
 * alone have no equilibrium. `share` is the nail's station per chord, `side` 1 for a nail above the chord, else −1.
 */
export function riseLimit(
  share: number,
  start: number | undefined,
  end: number | undefined,
  side: 1 | -1 = 1,
): number | undefined {
  const low: StripProblem = { stations: [0, share, 1], heights: [0, 0, 0], start, end };
  const onChord = solveEquilibrium(low);
  if (onChord.share < 1) return undefined;
  const first = { pins: low, state: onChord.state };
  return MAX_RISE * followContinuation(first, atHeight(low, side * MAX_RISE), STEPS, isContactStable).share;
}

/** The fault of a nail that is too high, with the limit there. */
export function tooHighFault({ stations, heights, start, end }: StripProblem, from: Point, to: Point): Fault {
  const chord = distance(from, to);
  const height = itemAt(heights, 1);
  const limit = riseLimit(itemAt(stations, 1), start, end, height < 0 ? -1 : 1);
  const both = start !== undefined && end !== undefined;
  return new Fault(
    'batten.too-high',
    (mm) =>
      `this nail is too high: ${mm(Math.abs(height) * chord)} off the chord, ${mm(itemAt(stations, 1) * chord)} along it. ` +
      `A batten with ${both ? 'both ends' : 'one end'} held ` +
      (limit !== undefined && limit < Math.abs(height)
        ? `can go up to ${mm(limit * chord)} there. `
        : 'cannot rest on it. ') +
      `Lower the nail, add nails, ${both ? 'free an end' : 'change the ends'}, or use an arc.`,
  );
}
