import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate, pieceLength } from '../../../src/curves/geometry/evaluate.ts';
import type { ArcSegment } from '../../../src/curves/geometry/pieces/piece.ts';
import { direction, distance, scale } from '../../../src/curves/geometry/point.ts';
import { figuresOf } from '../../../src/curves/measurements.ts';
import { arc } from '../../../src/curves/simple/arc.ts';

const only = (curve: ReturnType<typeof arc>): ArcSegment => curve.exact[0] as ArcSegment;
const level = (chord: number) =>
  [
    { x: 0, y: 0 },
    { x: chord, y: 0 },
  ] as const;

describe('an arc by its rise', () => {
  test('a 600 mm chord with 75 mm rise has a radius of 637.5 mm and is 624.6956 mm long', () => {
    // Intersecting chords (Euclid III.35): 300² = 75·(2r − 75), so r = 600 + 37.5.
    // Length = 2·637.5·asin(300/637.5).
    const curve = arc(...level(600), { rise: 75 });
    expect(only(curve).radius).toBeCloseTo(637.5, 9);
    expect(figuresOf(curve).length).toBeCloseTo(624.6956, 4);
  });

  test.each([
    // Machinery's Handbook, 31st ed. (2020), "Segments of Circles": printed worked examples.
    { chord: 16, rise: 6, radius: 8 + 1 / 3, digits: 9 },
    { chord: 59.86, rise: 8, radius: 60, digits: 1 },
  ])('the handbook’s chord $chord and rise $rise give radius $radius', ({ chord, rise, radius, digits }) => {
    expect(only(arc(...level(chord), { rise })).radius).toBeCloseTo(radius, digits);
  });

  test('the apex of a level arc is in the middle at its rise, above or below', () => {
    for (const rise of [75, -75]) {
      const { apex } = figuresOf(arc(...level(600), { rise }));
      expect(apex?.at.x).toBeCloseTo(300, 9);
      expect(apex?.at.y).toBeCloseTo(rise, 9);
    }
  });

  test('a rise over half the chord gives more than a half circle', () => {
    expect(Math.abs(only(arc(...level(100), { rise: 80 })).sweep)).toBeGreaterThan(Math.PI);
  });

  test('a very flat arc keeps its ends to a millionth of a millimeter', () => {
    const curve = arc(...level(1000), { rise: 0.00125 }); // radius 100 km
    expect(distance(evaluate(curve.exact[0]!, 1), { x: 1000, y: 0 })).toBeLessThan(1e-6);
  });
});

describe('an arc by radius or by a point', () => {
  test('an arc by radius is the smaller arc', () => {
    const curve = arc(...level(600), { radius: 637.5 });
    expect(figuresOf(curve).apex?.rise).toBeCloseTo(75, 9);
  });

  test('a radius of 100 m over 1 m rises 1.25 mm: the sagitta keeps its digits', () => {
    // s = r − √(r² − c²/4) = 1.250007812… by series c²/8r + c⁴/128r³
    const rise = 1000 ** 2 / (8 * 100_000) + 1000 ** 4 / (128 * 100_000 ** 3);
    expect(figuresOf(arc(...level(1000), { radius: 100_000 })).apex?.rise).toBeCloseTo(rise, 9); // a double holds 100 m to 1.5e-11 mm
  });

  test.each([0, 1.4, -1.4])(
    'of more than half a circle leaves by its tangents, not turns beyond, on a chord at %f',
    (tilt) => {
      // The tangent at an end stands 2·atan(2·rise / chord) off the chord (Euclid III.32): 2·atan(1.5) for 40 and 30.
      const off = 2 * Math.atan(1.5);
      const { endAngles } = figuresOf(arc({ x: 0, y: 0 }, scale(direction(tilt), 40), { rise: 30 }));
      expect(endAngles[0]).toBeCloseTo(tilt + off, 9);
      expect(endAngles[1]).toBeCloseTo(tilt - off, 9);
    },
  );

  test('property: an arc through a point passes that point and both ends', () => {
    const inside = fc.record({
      x: fc.double({ min: 10, max: 990, noNaN: true }),
      // Not so near the chord that the circle's centre lies beyond what a double places to a nanometre.
      y: fc.double({ min: -400, max: 400, noNaN: true }).filter((y) => Math.abs(y) > 1e-2),
    });
    fc.assert(
      fc.property(inside, (through) => {
        const curve = arc(...level(1000), { through });
        const piece = curve.exact[0]!;
        if (piece.type !== 'arc') throw new Error('a point off the chord makes an arc');
        const off = Math.abs(distance(piece.centre, through) - piece.radius);
        expect(off).toBeLessThan(1e-6);
        expect(distance(evaluate(piece, 1), { x: 1000, y: 0 })).toBeLessThan(1e-6);
        return pieceLength(piece) > 999.9;
      }),
    );
  });

  test.each([
    { name: 'a radius under half the chord', by: { radius: 299 }, code: 'arc.radius-too-small' },
    { name: 'a point at the start', by: { through: { x: 0, y: 0 } }, code: 'curve.same-point' },
    { name: 'a point in line beyond the end', by: { through: { x: 700, y: 0 } }, code: 'arc.out-of-order' },
    { name: 'a rise that is no number', by: { rise: Number.NaN }, code: 'curve.not-finite' },
  ])('$name is refused', ({ by, code }) => {
    expect(() => arc(...level(600), by)).toThrow(expect.objectContaining({ code }));
  });

  test('coincident ends are refused', () => {
    expect(() => arc({ x: 1, y: 1 }, { x: 1, y: 1 }, { rise: 1 })).toThrow(
      expect.objectContaining({ code: 'curve.same-point' }),
    );
  });
});
