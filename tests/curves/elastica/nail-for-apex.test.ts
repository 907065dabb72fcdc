import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { GAUSS_CONSTANT } from '../../../src/curves/elastica/rectangular-elastica.ts';
import { type StripEnds, strip } from '../../../src/curves/elastica/solve-strip.ts';
import { distance, type Point } from '../../../src/curves/geometry/point.ts';
import { apexOf } from '../../../src/curves/measurements.ts';
import { FROM, faultOf, HELD, nailForApex, nearest, TO } from '../apex-faults.ts';
import { FREE, PROMISE } from '../batten-cases.ts';
import { number, stripOr } from '../strip-sets.ts';

test.each([FREE, HELD])('an apex in the middle of equal ends is at the nail', (ends) => {
  const nail = nailForApex(FROM, TO, { x: 500, y: 210 }, ends);
  expect(distance(nail, { x: 500, y: 210 })).toBeLessThan(PROMISE * 1000);
});

describe('the nail of a shallow strip is that of the beam', () => {
  // Table 3-23 of the AISC manual; the rise is so small that the beam is good to 1e-6.
  const rise = 0.01;
  test('free ends: apex at √(a(a + 2b)/3) for a nail at a = 700', () => {
    const nail = nailForApex(FROM, TO, { x: Math.sqrt((700 * 1300) / 3), y: rise }, FREE);
    expect(nail.x).toBeCloseTo(700, 3);
  });
  test('held ends: apex at 2a/(3a + b) for a nail at a = 750', () => {
    const nail = nailForApex(FROM, TO, { x: 600, y: rise }, HELD);
    expect(nail.x).toBeCloseTo(750, 3);
    expect(rise / nail.y).toBeCloseTo(1.28, 6);
  });
});

test('property: nailForApex of the apex of a strip returns a strip with that apex', () => {
  const angle = fc.option(
    number(-0.6, 0.6).map((held) => ({ held })),
    { nil: 'free' as const },
  );
  fc.assert(
    fc.property(number(50, 950), number(-600, 600), angle, angle, (x, y, start, end) => {
      const ends = { start, end };
      const found = stripOr({ pins: [FROM, { x, y }, TO], ends });
      const apex = found && apexOf(found.spans, FROM, TO);
      if (!apex || apex.rise < 0.1) return;
      const nail = nailForApex(FROM, TO, apex.at, ends);
      const again = apexOf(strip([FROM, nail, TO], ends).spans, FROM, TO)!;
      expect(distance(again.at, apex.at)).toBeLessThan(PROMISE * 1000);
    }),
    { numRuns: 60 },
  );
});

test('property: nails turn with the chord', () => {
  fc.assert(
    fc.property(number(430, 570), number(10, 300), number(-3, 3), (x, y, turn) => {
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      const turned = (p: Point): Point => ({ x: c * p.x - s * p.y, y: s * p.x + c * p.y });
      const nail = turned(nailForApex(FROM, TO, { x, y }, MIXED_AT(0)));
      const other = nailForApex(FROM, turned(TO), turned({ x, y }), MIXED_AT(turn));
      expect(distance(nail, other)).toBeLessThan(10 * PROMISE * 1000);
    }),
    { numRuns: 20 },
  );
});
const MIXED_AT = (held: number): StripEnds => ({ start: 'free', end: { held } });

describe('an impossible apex gives a fault with the nearest one', () => {
  test('free, shallow: 1/√3 of the chord (simple beam loaded hard by its end)', () => {
    // Less what it may be rounded by when it is typed.
    expect(nearest({ x: 900, y: 0.1 }, FREE).x).toBeCloseTo(1000 / Math.sqrt(3) - 0.8 * Math.SQRT2, 1);
    expect(nearest({ x: 100, y: 0.1 }, FREE).x).toBeCloseTo(1000 - 1000 / Math.sqrt(3) + 0.8 * Math.SQRT2, 1);
  });

  test('both held, shallow: 2/3 of the chord', () => {
    expect(nearest({ x: 900, y: 0.1 }, HELD).x).toBeCloseTo(2000 / 3 - 0.8 * Math.SQRT2, 1);
  });

  test.each([FREE, HELD])("too high for any: up to Gauss's constant of the chord", (ends) => {
    const fault = faultOf({ x: 480, y: 900 }, ends);
    expect(fault.code).toBe('batten.too-high');
    const most = Number(/up to about ([\d.]+) mm/.exec(fault.message)![1]);
    expect(most).toBeLessThanOrEqual(1000 * GAUSS_CONSTANT);
    expect(most).toBeGreaterThan(999 * GAUSS_CONSTANT);
  });

  test('too low for ends that lift the strip higher by themselves', () => {
    const fault = faultOf({ x: 480, y: 5 }, { start: { held: 0.3 }, end: { held: -0.3 } });
    expect(fault.code).toBe('batten.no-such-apex');
    expect(fault.message).not.toMatch(/[Ll]ower/);
  });

  test('an apex on the chord leaves no curve', () => {
    expect(faultOf({ x: 480, y: 0 }, FREE).code).toBe('batten.no-such-apex');
  });
});
