import { describe, expect, test } from 'vitest';
import type { Curve } from '../../src/curves/curve.ts';
import { batten } from '../../src/curves/elastica/batten.ts';
import { bow } from '../../src/curves/elastica/bow.ts';
import { freeRiseLimit } from '../../src/curves/elastica/three-pin-closed-form.ts';
import type { ElasticaSegment } from '../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../src/curves/geometry/point.ts';
import { apexOf } from '../../src/curves/measurements.ts';
import { faultsOf } from '../fuzz/answers.ts';
import { Random, ROUNDS } from '../fuzz/random.ts';
import { anyBench, anyShare, type Bench, spread } from './cases.ts';
import { slowEnd } from './slow.ts';

/** Twenty rounds are two thousand of each. */
const A_ROUND = 100;
/** What a batten and a bow promise, as a share of the chord. */
const PROMISE = 1e-9;
/** A place a kilometre off is told to this, mm. */
const ROUNDING_MM = 1e-9;

/** Every span run slowly from its start ends on the next pin, as the next span starts. */
function expectToHold(
  spans: readonly ElasticaSegment[],
  pins: readonly Point[],
  chord: number,
  told: string,
): void {
  spans.forEach((span, i) => {
    const end = slowEnd(span);
    expect(distance(end, pins[i + 1]!), `${told}, span ${i}`).toBeLessThan(PROMISE * chord + ROUNDING_MM);
    const next = spans[i + 1];
    const turn = next ? end.angle - next.angle : 0;
    expect(Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))), told).toBeLessThan(1e-7);
    // A free end is not bent; at a pin the bending carries over.
    const bent = (next?.curvature ?? 0) - end.curvature;
    expect(Math.abs(bent) * span.length, told).toBeLessThan(1e-6);
  });
}

function each(
  work: (random: Random, bench: Bench) => Curve | undefined,
  holds: (curve: Curve, chord: number, told: string) => void,
) {
  let good = 0;
  for (let i = 0; i < A_ROUND * ROUNDS; i++) {
    const random = new Random(i);
    const bench = anyBench(random);
    faultsOf(() => {
      const curve = work(random, bench);
      if (!curve) return;
      good++;
      holds(curve, bench.chord, `case ${i} of this seed`);
    });
  }
  expect(good).toBeGreaterThan((A_ROUND * ROUNDS) / 3);
}

/** A bow lower than a join is a line: it has none. */
const spansOf = ({ exact }: Curve): ElasticaSegment[] => exact.filter((piece) => piece.type === 'elastica');

describe('against a slow computation, from 5 mm to 50 m and from a hair to the limit', () => {
  test('a strip over one nail, a hair from an end or anywhere', () => {
    each(
      (random, { place }) => {
        const share = anyShare(random);
        const height = Math.min(spread(random, 1e-9, 1), 1 - spread(random, 1e-6, 1)) * freeRiseLimit(share);
        return batten(place(0, 0), place(1, 0), {
          nail: place(share, height * (random.next() < 0.5 ? 1 : -1)),
        });
      },
      (curve, chord, told) => expectToHold(spansOf(curve), curve.pins, chord, told),
    );
  });

  test('a strip over several nails', () => {
    each(
      (random, { place }) => {
        const nails = Array.from({ length: 2 + random.below(6) }, () => anyShare(random)).sort(
          (a, b) => a - b,
        );
        const height = spread(random, 1e-9, 0.3);
        const through = nails.map((share) =>
          place(share, height * (4 * share * (1 - share) + 0.1 * random.next())),
        );
        return batten(place(0, 0), place(1, 0), { through });
      },
      (curve, chord, told) => expectToHold(spansOf(curve), curve.pins, chord, told),
    );
  });

  test('a strip by its apex has it there', () => {
    let asked: Point;
    each(
      (random, { place }) => {
        asked = place(0.5 + 0.12 * (random.next() - 0.5), spread(random, 1e-3, 0.5));
        return batten(place(0, 0), place(1, 0), { apex: asked });
      },
      (curve, chord, told) => {
        expectToHold(spansOf(curve), curve.pins, chord, told);
        const apex = apexOf(curve.exact, curve.from, curve.to)!.at;
        expect(distance(apex, asked), told).toBeLessThan(PROMISE * chord + ROUNDING_MM);
      },
    );
  });

  test('a bow', () => {
    each(
      (random, { place, chord }) => bow(place(0, 0), place(1, 0), chord * spread(random, 1e-6, 1)),
      (curve, chord, told) => {
        const last = spansOf(curve).map(slowEnd).at(-1) ?? curve.to;
        expect(distance(last, curve.to), told).toBeLessThan(PROMISE * chord + ROUNDING_MM);
      },
    );
  });
});
