import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Curve } from '../../../src/curves/curve.ts';
import { batten } from '../../../src/curves/elastica/batten.ts';
import { pinForces, pulling } from '../../../src/curves/elastica/pin-reactions.ts';
import { strip } from '../../../src/curves/elastica/solve-strip.ts';
import { freeRiseLimit } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { paramCurve, pieceLength } from '../../../src/curves/geometry/evaluate.ts';
import { add, direction, leftNormal, type Point, point, scale } from '../../../src/curves/geometry/point.ts';
import { FREE } from '../batten-cases.ts';

const over = (...pins: [number, number][]): Point[] => pins.map(([x, y]) => ({ x, y }));

describe('pinForces by side of the nail', () => {
  test('a strip over one nail presses on it from above, and from below on its ends', () => {
    const { pins } = strip(over([0, 0], [500, 60], [1000, 0]), FREE);
    expect(pins.map(({ side }) => side)).toEqual(['left', 'right', 'left']);
    expect(pulling(pins)).toEqual([]);
  });

  test('under the chord it is the other way round', () => {
    const { pins } = strip(over([0, 0], [500, -60], [1000, 0]), FREE);
    expect(pins.map(({ side }) => side)).toEqual(['right', 'left', 'right']);
    expect(pulling(pins)).toEqual([]);
  });

  test('a nail that holds a sheer down pushes from the outer side', () => {
    // The reference case of four pins: force −0.0759 at the second, to 5.16 at the third.
    const { pins } = strip(over([0, 0], [300, 80], [650, 100], [1000, 0]), FREE);
    expect(pins.map(({ side }) => side)).toEqual(['left', 'left', 'right', 'left']);
    expect(pulling(pins)).toEqual([1]);
  });

  test('a pin on the free line of the strip has no force', () => {
    const { pins } = strip(over([0, 0], [200, 0], [1000, 0]), FREE);
    expect(pins.map(({ side }) => side)).toEqual([undefined, undefined, undefined]);
  });
});

test('the forces of free pins balance, and so do their moments', () => {
  const { pins, spans } = strip(over([0, 0], [220, 90], [510, 20], [800, -60], [1000, 40]), FREE);
  const largest = Math.max(...pins.map(({ reaction }) => Math.abs(reaction)));
  const vectors = pins.map(({ at, angle, reaction }) => ({
    at,
    x: -Math.sin(angle) * reaction,
    y: Math.cos(angle) * reaction,
  }));
  const sum = (f: (v: (typeof vectors)[number]) => number): number => vectors.reduce((t, v) => t + f(v), 0);
  expect(Math.abs(sum(({ x }) => x))).toBeLessThan(1e-9 * largest);
  expect(Math.abs(sum(({ y }) => y))).toBeLessThan(1e-9 * largest);
  expect(Math.abs(sum(({ at, x, y }) => at.x * y - at.y * x))).toBeLessThan(1e-9 * largest * 1000);
  expect(pinForces(spans)).toEqual(pins);
});

test('straight lines and arcs have no pins', () => {
  expect(pinForces([{ type: 'line', from: { x: 0, y: 0 }, to: { x: 1, y: 0 } }])).toEqual([]);
});

/** ½∫κ² ds by Simpson's rule: the work that bending a strip of EI = 1 takes. */
const work = ({ exact }: Curve): number =>
  exact.reduce((sum, piece) => {
    const at = paramCurve(piece);
    const weight = (i: number): number => (i === 0 || i === STEPS ? 1 : i % 2 === 1 ? 4 : 2);
    const sums = Array.from({ length: STEPS + 1 }, (_, i) => weight(i) * at(i / STEPS).curvature ** 2);
    return sum + (sums.reduce((a, b) => a + b) * pieceLength(piece)) / (6 * STEPS);
  }, 0);
const STEPS = 400;
/** What Simpson's rule and quotients of the fourth order leave, as a share of the greatest force. */
const CASTIGLIANO = 1e-7;

test('property: a nail moved square to the strip does the work that its force says, however deep (Castigliano)', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(
      share,
      share,
      fc.array(fc.tuple(share, share), { minLength: 1, maxLength: 4 }),
      (size, deep, wobbles) => {
        const chord = 5 * 10_000 ** size;
        const alone = wobbles.length === 1;
        const stations = wobbles.map(([aside], i) =>
          alone ? 0.02 + 0.96 * aside : (i + 0.6 + 0.8 * aside) / (wobbles.length + 1),
        );
        const most = alone ? 0.9 * freeRiseLimit(stations[0]!) : 0.25;
        const rise = 1e-4 * (most / 1e-4) ** deep;
        const nails = stations.map((x, i) => {
          const height = alone ? 1 : 4 * x * (1 - x) + 0.2 * (wobbles[i]![1] - 0.5);
          return point(x * chord, rise * height * chord);
        });
        const over = (through: readonly Point[]): Curve => batten(point(0, 0), point(chord, 0), { through });
        const forces = pinForces(over(nails).exact);
        const greatest = Math.max(...forces.map(({ reaction }) => Math.abs(reaction)));
        nails.forEach((nail, i) => {
          const { angle, reaction } = forces[i + 1]!;
          const moved = (by: number): number =>
            work(over(nails.with(i, add(nail, scale(leftNormal(direction(angle)), by)))));
          const step = 1e-4 * chord * Math.min(1, 10 * rise);
          const rate =
            (8 * (moved(step) - moved(-step)) - (moved(2 * step) - moved(-2 * step))) / (12 * step);
          expect(Math.abs(rate - reaction) / greatest).toBeLessThan(CASTIGLIANO);
        });
      },
    ),
    { numRuns: 25 },
  );
});
