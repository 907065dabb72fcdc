import { describe, expect, test } from 'vitest';
import type { StripEnds } from '../../../src/curves/elastica/solve-strip.ts';
import { FROM, HELD, MIXED, nailForApex, nearest, TO } from '../apex-faults.ts';
import { FREE } from '../batten-cases.ts';

/** An inch rule's sixteenths, the coarsest marks that a point is typed to. */
const SIXTEENTH = 25.4 / 16;
const typed = (mm: number): number => Math.round(mm / SIXTEENTH) * SIXTEENTH;

describe.each([
  ['level', TO, 20, -1],
  ['climbing', { x: 1000, y: 250 }, 980, 1],
])('an impossible apex over a chord that is %s', (_, to, x, outward) => {
  test.each([
    ['free', 200, FREE],
    ['both held', 150, HELD],
    ['held at the start', 180, MIXED],
    ['held leaning', 180, { start: { held: 0.3 }, end: 'free' } as StripEnds],
  ])(
    '%s ends: the nearest is accepted as typed on a coarse rule, and 5 mm farther out is not',
    (_name, y, ends) => {
      const told = nearest({ x, y: y + (to.y * x) / 1000 }, ends, to);
      expect(() => nailForApex(FROM, to, { x: typed(told.x), y: typed(told.y) }, ends)).not.toThrow();
      const farther = { x: told.x + outward * 5, y: told.y + (outward * 5 * to.y) / 1000 };
      expect(() => nailForApex(FROM, to, farther, ends)).toThrow(
        expect.objectContaining({ code: 'batten.no-such-apex' }),
      );
    },
  );
});
