import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { solveThreePinStrip } from '../../../src/curves/elastica/three-pin-closed-form.ts';
import { evaluate } from '../../../src/curves/geometry/evaluate.ts';
import { distance, dot, type Point, subtract } from '../../../src/curves/geometry/point.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { type SplineEnd, spline } from '../../../src/curves/simple/spline.ts';
import { largestGap, worstDistance } from '../measure.ts';

const points = (pairs: readonly (readonly [number, number])[]): Point[] => pairs.map(([x, y]) => ({ x, y }));
const natural = (pairs: readonly (readonly [number, number])[]) =>
  spline(points(pairs), 'natural', 'natural');

describe('the natural spline', () => {
  test('spline through 0, 1, 0 is 11/16 halfway: the center-loaded beam', () => {
    // y/δ = (3xL² − 4x³)/L³ at x = L/4 (simply supported beam, centre load; AISC Table 3-23, case 7)
    const curve = natural([
      [0, 0],
      [1, 1],
      [2, 0],
    ]);
    const at = evaluate(curve.exact[0]!, 0.5);
    expect(at.x).toBeCloseTo(0.5, 12);
    expect(at.y).toBeCloseTo(11 / 16, 12);
  });

  test('over unequal spans it is the beam with a load off the middle', () => {
    // Pbx(L² − b² − x²)/6EIL over Pa²b²/3EIL: y/δ = x(L² − b² − x²)/(2a²b), a = 0.75, b = 0.25, x = 0.375.
    const curve = natural([
      [0, 0],
      [75, 4],
      [100, 0],
    ]);
    const expected = (0.375 * (1 - 0.0625 - 0.375 ** 2)) / (2 * 0.75 ** 2 * 0.25);
    expect(evaluate(curve.exact[0]!, 0.5).y).toBeCloseTo(4 * expected, 10);
  });

  test('spline is the limit of the bent strip at small rises', () => {
    const pairs = [
      [0, 0],
      [300, 0.5],
      [1000, 0],
    ] as const;
    const [a, nail, b] = points(pairs) as [Point, Point, Point];
    const strip = solveThreePinStrip(a, nail, b);
    const places = natural(pairs).exact.flatMap((piece) => [0.25, 0.5, 0.75].map((u) => evaluate(piece, u)));
    expect(worstDistance(places, strip)).toBeLessThan(1e-6); // third order in rise/chord: 0.5·(0.0005)²
  });

  test('unequal spacing does not make it overshoot as an unweighted one does', () => {
    // Data of the public report d3-shape #38, where spans of 7 and 195 side by side swung an unweighted cubic.
    const curve = natural([
      [0, 224],
      [100, 200],
      [107, 180],
      [502, 300],
      [580, 120],
      [607, 148],
      [900, 400],
    ]);
    const between = Array.from({ length: 21 }, (_, i) => evaluate(curve.exact[1]!, i / 20).y);
    expect(Math.max(...between)).toBeLessThan(200 + 5);
    expect(Math.min(...between)).toBeGreaterThan(180 - 5);
  });
});

describe('held ends', () => {
  test('spline held level at both ends is the beam with built-in ends', () => {
    // y/δ at the quarter of a fixed beam under a centre load: x²(3L − 4x)·4/L³ = 1/2 (AISC Table 3-23, case 16)
    const curve = spline(
      points([
        [0, 0],
        [50, 3],
        [100, 0],
      ]),
      { held: 0 },
      { held: 0 },
    );
    expect(evaluate(curve.exact[0]!, 0.5).y).toBeCloseTo(1.5, 12);
    expect(figuresOf(curve).endAngles[0]).toBeCloseTo(0, 12);
  });

  test('a held end keeps its angle', () => {
    const curve = spline(
      points([
        [0, 0],
        [80, 30],
      ]),
      { held: 0.1 },
      'natural',
    );
    expect(figuresOf(curve).endAngles[0]).toBeCloseTo(0.1, 12);
  });

  test('two points and natural ends make the straight line', () => {
    const at = evaluate(
      natural([
        [0, 0],
        [80, 30],
      ]).exact[0]!,
      0.3,
    );
    expect(at.y / at.x).toBeCloseTo(30 / 80, 12);
  });
});

describe('faults', () => {
  test.each([
    {
      name: 'points out of order',
      at: [
        [0, 0],
        [60, 5],
        [40, 5],
        [100, 0],
      ],
      code: 'spline.out-of-order',
    },
    {
      name: 'coincident points',
      at: [
        [0, 0],
        [50, 5],
        [50, 5],
        [100, 0],
      ],
      code: 'curve.same-point',
    },
    {
      name: 'no number',
      at: [
        [0, 0],
        [50, Number.NaN],
        [100, 0],
      ],
      code: 'curve.not-finite',
    },
  ] as const)('$name are refused', ({ at, code }) => {
    expect(() => natural(at)).toThrow(expect.objectContaining({ code }));
  });

  test('an end held square to the chord is refused', () => {
    expect(() =>
      spline(
        points([
          [0, 0],
          [100, 0],
        ]),
        { held: Math.PI / 2 },
        'natural',
      ),
    ).toThrow(expect.objectContaining({ code: 'spline.too-steep' }));
  });
});

const gentle = fc
  .array(
    fc.record({
      dx: fc.double({ min: 5, max: 200, noNaN: true }),
      y: fc.double({ min: -40, max: 40, noNaN: true }),
    }),
    {
      minLength: 3,
      maxLength: 12,
    },
  )
  .map((steps) => {
    let x = 0;
    return steps.map(({ dx, y }) => {
      x += dx;
      return { x: x * 3, y };
    });
  })
  .filter(onward);

/** Every point lies beyond the one before it along the chord, which itself may lean. */
function onward(points: readonly Point[]): boolean {
  const chord = subtract(points.at(-1)!, points[0]!);
  return points.slice(1).every((point, i) => dot(subtract(point, points[i]!), chord) > 0);
}

test('property: turned points give the turned curve, which passes them all without a gap', () => {
  fc.assert(
    fc.property(gentle, fc.double({ min: -3, max: 3, noNaN: true }), (at, turn) => {
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      const map = ({ x, y }: Point): Point => ({ x: c * x - s * y, y: s * x + c * y });
      const ends: [SplineEnd, SplineEnd] = ['natural', 'natural'];
      const curve = spline(at, ...ends);
      const turned = spline(at.map(map), ...ends);
      expect(largestGap(curve.exact)).toBeLessThan(1e-9);
      curve.exact.forEach((piece, i) => {
        expect(distance(map(evaluate(piece, 0.4)), evaluate(turned.exact[i]!, 0.4))).toBeLessThan(1e-7);
        expect(distance(evaluate(piece, 0), at[i]!)).toBeLessThan(1e-9);
      });
    }),
  );
});
