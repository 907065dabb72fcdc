import { firstOf, itemAt, lastOf, neighbors } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import type { ElasticaSegment } from '../geometry/pieces/piece.ts';
import { angleDifference, angleFrom, distance, type Point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { assertDistinct } from '../validate.ts';
import { type ContinuationResult, solveEquilibrium } from './continuation.ts';
import { type StateVector, spanOffset } from './newton-many-pins.ts';
import { type PinForce, pinForces } from './pin-reactions.ts';
import { isContactStable, tooHighFault } from './rise-limit.ts';
import type { StripProblem } from './strip-problem.ts';
import { solveThreePinStrip } from './three-pin-closed-form.ts';

/** A pin without bending moment, or a sleeve at an angle (radians, counterclockwise from the reference line). */
export type StripEnd = 'free' | { readonly held: number };

export interface StripEnds {
  readonly start: StripEnd;
  readonly end: StripEnd;
}

export const FREE_ENDS: StripEnds = { start: 'free', end: 'free' };

export interface Strip {
  readonly spans: readonly ElasticaSegment[];
  readonly pins: readonly PinForce[];
}

/**
 * The springy strip of least bending energy over frictionless pins, to 1e-9 of the chord: the one that grows out of
 * the straight strip as the pins move into place, never one that loops or would snap through.
 * @param pins two or more, in order along the chord from the first to the last
 * @throws Fault `curve.same-point`, `curve.not-finite`, `batten.out-of-order`, `batten.too-high`, `batten.not-found`
 */
export function strip(pins: readonly Point[], ends: StripEnds): Strip {
  const spans = stripSpans(pins, ends);
  return { spans, pins: pinForces(spans) };
}

export function stripSpans(pins: readonly Point[], ends: StripEnds): readonly ElasticaSegment[] {
  const spans = trySolveStrip(pins, ends);
  if (typeof spans === 'function') throw spans();
  return spans;
}

/** The spans, or a thunk for the fault, as it searches for the limit. Throws at once where no strip can be. */
export function trySolveStrip(pins: readonly Point[], ends: StripEnds): Strip['spans'] | (() => Fault) {
  assertDistinct(pins[0], pins.at(-1), 'the two ends of the batten');
  const [from, to] = [firstOf(pins), lastOf(pins)];
  const over = toStripProblem(pins, ends);
  assertAdvancing(over, pins);
  const free = ends.start === 'free' && ends.end === 'free';
  const one = pins.length === 3;
  if (free && one) return solveThreePinStrip(from, itemAt(pins, 1), to);
  const grown = solveEquilibrium(over);
  if (grown.exhausted) return () => notConvergedFault(grown, over);
  if (grown.share < 1) return () => (one ? tooHighFault(over, from, to) : snapThroughFault(grown, over));
  if (one && !isContactStable(over, grown.state)) return () => tooHighFault(over, from, to);
  return spansFromState(grown.state, pins);
}

function toStripProblem(pins: readonly Point[], { start, end }: StripEnds): StripProblem {
  const frame = new ChordFrame(firstOf(pins), lastOf(pins));
  const toChord = (kept: StripEnd): number | undefined => {
    if (kept === 'free') return undefined;
    const problem = 'the angle of a held end is not a finite number. Use a plain angle.';
    if (!Number.isFinite(kept.held)) throw new Fault('curve.not-finite', problem);
    return angleDifference(frame.angle, kept.held);
  };
  const heights = pins.map((p) => frame.height(p) / frame.length);
  // Rounding must not bend a strip between two pins.
  [heights[0], heights[pins.length - 1]] = [0, 0];
  const stations = pins.map((p) => frame.station(p) / frame.length);
  return { stations, heights, start: toChord(start), end: toChord(end) };
}

function assertAdvancing({ stations }: StripProblem, pins: readonly Point[]): void {
  const chord = distance(firstOf(pins), lastOf(pins));
  for (let i = 1; i < pins.length; i++) {
    assertDistinct(itemAt(pins, i - 1), itemAt(pins, i), 'two neighboring nails of the batten');
    if (!((itemAt(stations, i) - itemAt(stations, i - 1)) * chord > JOIN_MM))
      throw new Fault(
        'batten.out-of-order',
        (mm) =>
          `the nail at station ${mm(itemAt(pins, i).x)} is not past the nail before it along the chord. ` +
          'Give the nails in order, from left to right.',
      );
  }
}

const floorPercent = (share: number): string => `${Math.floor(share * 100)}%`;

function describeLoad({ stations, start, end }: StripProblem): string {
  if (stations.length === 2) return 'these angles';
  return start === undefined && end === undefined ? 'these offsets' : 'these offsets and angles';
}

const notConvergedFault = ({ share }: ContinuationResult, over: StripProblem): Fault =>
  new Fault(
    'batten.not-found',
    `fairlath could not calculate the batten over these ${over.stations.length} nails. ` +
      `It reached ${floorPercent(share)} of ${describeLoad(over)}. Use fewer nails, or an arc.`,
  );

function snapThroughFault({ share }: ContinuationResult, over: StripProblem): Fault {
  const [wrong, ease] =
    over.stations.length === 2
      ? ['these ends are too steep', 'Use smaller angles']
      : ['these nails are too high', 'Lower them, add nails'];
  const held = over.start !== undefined || over.end !== undefined;
  return new Fault(
    'batten.too-high',
    `${wrong}: the batten snaps over at ${floorPercent(share)} of ${describeLoad(over)}. ` +
      `${ease}, ${held ? 'free an end' : 'hold its ends'}, or use an arc.`,
  );
}

function spansFromState(state: StateVector, pins: readonly Point[]): ElasticaSegment[] {
  const tilt = angleFrom(firstOf(pins), lastOf(pins));
  return neighbors(pins).map(([from, to], i) => {
    const at = spanOffset(pins.length, i);
    const chord = distance(from, to);
    const [curvature, curvatureRate] = [itemAt(state, at) / chord, itemAt(state, at + 1) / chord ** 2];
    const length = itemAt(state, at + 2) * chord;
    return { type: 'elastica', from, angle: tilt + itemAt(state, i), curvature, curvatureRate, length };
  });
}
