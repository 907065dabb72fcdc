import { expect, test } from 'vitest';
import type { StripEnds } from '../../../src/curves/elastica/solve-strip.ts';
import { FROM, HELD, MIXED, nailForApex, nearest, TO } from '../apex-faults.ts';
import { FREE } from '../batten-cases.ts';

test.each([
  ['free', 300, FREE],
  ['both held', 150, HELD],
  ['held at the start', 200, MIXED],
  ['held leaning', 200, { start: { held: 0.3 }, end: 'free' } as StripEnds],
])(
  'where no nail brings the apex, %s, %i high: a nail is found a hair inside, and none a hair outside',
  (_, y, ends) => {
    const [low, high] = [nearest({ x: 20, y }, ends), nearest({ x: 980, y }, ends)];
    for (const [limit, inward] of [
      [low, 1],
      [high, -1],
    ] as const) {
      expect(() => nailForApex(FROM, TO, { x: limit + inward * 0.01, y }, ends)).not.toThrow();
      expect(() => nailForApex(FROM, TO, { x: limit - inward * 0.01, y }, ends)).toThrow(
        expect.objectContaining({ code: 'batten.no-such-apex' }),
      );
    }
  },
);
