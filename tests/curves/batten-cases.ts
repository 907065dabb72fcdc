import type { StripEnd, StripEnds } from '../../src/curves/elastica/solve-strip.ts';
import { pinsOf, reference } from './reference.ts';

/** The batten's promise: places to 1e-9 of the chord, and the other figures as well in shares of it. */
export const PROMISE = 1e-9;

export const FREE: StripEnds = { start: 'free', end: 'free' };

const keptAt = (angle: number | null): StripEnd => (angle === null ? 'free' : { held: angle });

/** Every reference strip over pins, free and held. */
export const strips = [...reference.free3pin, ...reference.heldEnds, ...reference.manyPins].map((one) => ({
  id: one.id,
  pins: pinsOf(one),
  ends: { start: keptAt(one.inputs.hold_A), end: keptAt(one.inputs.hold_B) },
  outputs: one.outputs,
}));
