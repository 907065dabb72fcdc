import { describe, expect, test } from 'vitest';
import { type CurvePoint, paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import { distance, type Point, point } from '../../../src/curves/geometry/point.ts';
import { sharpestBend } from '../../../src/curves/measurements.ts';
import { formOf, plyLength, tailLength } from '../../../src/part/derived/bending-form.ts';
import { partOf } from '../jobs.ts';

const line = (steps: string) => partOf(`part: Rail\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n${steps}`);
const arcOf = (chord: number, rise: number) => line(`    - arc: [${chord}, 0]\n      rise: ${rise}\n`);
const factor = (n: number): number => n ** 2 / (n ** 2 - 1);

/** The length of a line so far to the left of its own places: by chords, which are short of a curve by (h/R)²/24. */
function lengthBeside(places: readonly CurvePoint[], off: number): number {
  const beside = places.map(
    ({ x, y, angle }): Point => point(x - off * Math.sin(angle), y + off * Math.cos(angle)),
  );
  return beside.slice(1).reduce((sum, at, i) => sum + distance(beside[i]!, at), 0);
}

describe('a ply', () => {
  const ARCS = [60, 150, 300, -60, -150, -300].flatMap((rise) =>
    [true, false].flatMap((above) => [2, 5, 12].map((plies) => [rise, above, plies] as const)),
  );

  test.each(ARCS)(
    'of an arc 700 mm wide, rise %d, plies above: %s, %d plies, is an arc about the form’s middle',
    (rise, above, plies) => {
      const part = arcOf(700, rise);
      const form = formOf(part, part.edges[0]!, factor(plies), above);
      const high = Math.abs(rise);
      // Chord and rise give the radius (Euclid III.35); the form's is smaller by 1/n² of it, its length the same.
      const radius = (350 ** 2 + high ** 2) / (2 * high);
      const length = 2 * radius * (high > 350 ? Math.PI - Math.asin(350 / radius) : Math.asin(350 / radius));
      const onForm = radius / factor(plies);
      // Above an arch, and below a hollow, a ply lies outside the form.
      const outward = rise > 0 === above ? 1 : -1;
      for (const off of [0, 3, 20, 60]) {
        const about = ((onForm + outward * off) * length) / onForm;
        expect(plyLength(form, off)).toBeCloseTo(about + 2 * tailLength(part.rule), 6);
      }
    },
  );

  test.each([
    ['a batten', '    - batten: [800, 30]\n      through: [300, 120]\n'],
    ['an S', '    - spline: [900, 0]\n      through: [[200, 60], [450, 0], [700, -60]]\n'],
    ['an ellipse’s top', '    - spline: [600, 0]\n      through: [[100, 90], [300, 140], [500, 90]]\n'],
    [
      'an arc and a line',
      '    - arc: [400, 0]\n      rise: 50\n    - spline: [700, -206]\n      through: [550, -90]\n      ends: held\n',
    ],
    ['a bow', '    - bow: [700, 0]\n      rise: -140\n'],
  ])('of %s is as long as the parallel of the form', (_, steps) => {
    const part = line(steps);
    for (const above of [true, false])
      for (const plies of [3, 8]) {
        const form = formOf(part, part.edges[0]!, factor(plies), above);
        const face = form.part.edges[0]!.pieces.flatMap((piece) =>
          Array.from({ length: 2001 }, (_each, i) => paramCurve(piece)(i / 2000)),
        );
        for (const off of [1, 8, 25])
          expect(plyLength(form, off)).toBeCloseTo(lengthBeside(face, above ? off : -off), 1);
      }
  });

  test('100 mm off a form that turns by 78° is 35 mm and more short at each end without its own length', () => {
    const part = arcOf(711, 127);
    const form = formOf(part, part.edges[0]!, factor(20), true);
    expect((plyLength(form, 100) - plyLength(form, 0)) / 2).toBeGreaterThan(60);
  });
});

describe('the form’s side', () => {
  test('of a single edge is outside the wood unless asked, and of two edges away from the other', () => {
    const [arch, hollow] = [arcOf(600, 75), arcOf(600, -75)];
    expect(formOf(arch, arch.edges[0]!, 1.1).pliesAbove).toBe(false);
    expect(formOf(hollow, hollow.edges[0]!, 1.1).pliesAbove).toBe(true);
    const rail = partOf(
      'part: Rail\nunits: mm\nedges:\n  under:\n    - from: [0, 0]\n    - arc: [600, 0]\n      rise: 75\n' +
        '  over:\n    - from: [0, 50]\n    - arc: [600, 50]\n      rise: 75\n',
    );
    expect(rail.edges.map((edge) => formOf(rail, edge, 1.1).pliesAbove)).toEqual([true, false]);
    expect(formOf(arch, arch.edges[0]!, 1.1, true).part.edges[0]!.woodIsAbove).toBe(false);
  });

  test('has the bends to its left apart from those to its right', () => {
    const [s] = line('    - arc: [300, 0]\n      rise: 40\n    - arc: [700, 0]\n      rise: -30\n').edges;
    // R = c²/(8h) + h/2
    expect(1 / sharpestBend(s!.pieces, -1)).toBeCloseTo(300 ** 2 / 320 + 20, 6);
    expect(1 / sharpestBend(s!.pieces, 1)).toBeCloseTo(400 ** 2 / 240 + 15, 6);
    const [arch] = arcOf(600, 75).edges;
    expect(sharpestBend(arch!.pieces, 1)).toBe(0);
  });
});
