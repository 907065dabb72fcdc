import type { StripEnd, StripEnds } from '../../src/curves/strip.ts';
import cases from '../fixtures/batten-cases.json' with { type: 'json' };

export { cases };

/** The batten's promise: places to 1e-9 of the chord, and the other figures as well in shares of it. */
export const PROMISE = 1e-9;

export const FREE: StripEnds = { start: 'free', end: 'free' };

export const keptAt = (angle: number | null | undefined): StripEnd =>
  angle === null || angle === undefined ? 'free' : { held: angle };

/** Every strip over pins, in one shape. */
export const strips = [...cases.free3pin, ...cases.heldEnds, ...cases.manyPins].map(
  ({ id, inputs, outputs }) => ({
    id,
    pins: inputs.pins.map(([x, y]) => ({ x: x!, y: y! })),
    ends: { start: keptAt(inputs.hold_A), end: keptAt(inputs.hold_B) },
    outputs,
  }),
);
