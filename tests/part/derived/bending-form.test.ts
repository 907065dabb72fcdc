import { describe, expect, test } from 'vitest';
import type { Curve } from '../../../src/curves/curve.ts';
import { pieceEnd, pieceStart } from '../../../src/curves/geometry/evaluate.ts';
import { needsMirrorImage } from '../../../src/export/cover/pair-words.ts';
import { formOf, tailLength } from '../../../src/part/derived/bending-form.ts';
import { offsetAt } from '../../../src/part/offsets.ts';
import { edgeCheckDistances } from '../../../src/tiling/check-crosses.ts';
import { partOf, samplePart } from '../jobs.ts';

const arch = partOf(
  'part: Rail\nunits: mm\nedges:\n  top:\n    - from: [50, 20]\n    - arc: [650, 20]\n      rise: 75\n',
);
const factor = (n: number): number => n ** 2 / (n ** 2 - 1);

describe('a bending form', () => {
  const form = formOf(arch, arch.edges[0]!, factor(4));

  test('of an arc is the arc of R(1 − 1/16), its chord on the reference line from station 0', () => {
    // Chord 600, rise 75: R = 637.5 (Euclid III.35); half the arc's angle is asin(300/637.5), grown by 16/15.
    const radius = 637.5 * (15 / 16);
    const half = (Math.asin(300 / 637.5) * 16) / 15;
    expect(form.chord).toBeCloseTo(2 * radius * Math.sin(half), 9);
    expect(form.rise).toBeCloseTo(radius * (1 - Math.cos(half)), 9);
    expect(form.askedRise).toBeCloseTo(75, 9);
    expect(form.length).toBeCloseTo(2 * 637.5 * Math.asin(300 / 637.5), 9);
    expect(offsetAt(form.part.edges[0]!, form.chord / 2)).toBeCloseTo(form.rise, 6);
    // The line that is asked for lies under the form's, their middles over each other.
    const [from, to] = [pieceStart(form.asked[0]!), pieceEnd(form.asked.at(-1)!)];
    expect(from.x + to.x).toBeCloseTo(form.chord, 9);
    expect(to.x - from.x).toBeCloseTo(600, 9);
  });

  test('runs on straight at both ends for the clamps', () => {
    const [before, , after] = form.part.edges[0]!.runs;
    for (const tail of [before!, after!]) {
      expect(tail.kind).toBe('line');
      expect(Math.hypot(tail.to.x - tail.from.x, tail.to.y - tail.from.y)).toBeCloseTo(50, 9);
    }
    expect(before!.to.x).toBeCloseTo(0, 9);
    expect(before!.to.y).toBeCloseTo(0, 9);
    expect(after!.from.x).toBeCloseTo(form.chord, 9);
    expect(after!.from.y).toBeCloseTo(0, 9);
  });

  test('loses about 1/n² of its rise: 4 plies, 3 in of camber, 3/16 in', () => {
    // A boat builders' forum gives y = x/n² for shallow curves; here 3 in over 10 ft.
    const beam = partOf(
      'part: Rail\nunits: in\nedges:\n  top:\n    - from: [0, 0]\n    - arc: [120, 0]\n      rise: 2.8125\n',
    );
    const { rise, askedRise } = formOf(beam, beam.edges[0]!, factor(4));
    expect(rise / 25.4).toBeCloseTo(3, 2);
    expect((rise - askedRise) / 25.4).toBeCloseTo(3 / 16, 2);
  });

  test('of a sample’s edge keeps the edge’s side', () => {
    const rail = samplePart('garden-arch-rail.yaml');
    const { part, askedRise } = formOf(rail, rail.edges[1]!, factor(5));
    expect(part.bounds.top).toBeGreaterThan(askedRise);
    expect(part.name).toBe('Form for upper: Garden arch rail');
  });

  test('has no ends, joints or pair of the part, and is measured between its own ends', () => {
    const rail = partOf(
      'part: Rail\nunits: in\nquantity: 2\npair: mirrored\nstock: {thickness: 1}\nedges:\n  under:\n    - from: [0, 0]\n    - arc: [36, 0]\n' +
        '      rise: 5\n  over:\n    - from: [0, 2]\n    - arc: [36, 2]\n      rise: 5\n' +
        'ends: {left: {miter: -6}, right: {miter: 6, bevel: 3}}\njoints:\n  - hole: {at: 18, out: 6, diameter: 3/8}\n',
    );
    expect(needsMirrorImage(rail)).toBe(true);
    const { part, chord } = formOf(rail, rail.edges[0]!, factor(7));
    expect(part.joints).toEqual([]);
    expect(part).not.toHaveProperty('ends');
    expect(needsMirrorImage(part)).toBe(false);
    const [endToEnd] = edgeCheckDistances(part);
    const [{ from }, , { to }] = part.edges[0]!.runs as [Curve, Curve, Curve];
    // Level with each other, 2 in of tail beyond the chord at each end.
    expect(from.y).toBeCloseTo(to.y, 9);
    expect(endToEnd!.length).toBeCloseTo(to.x - from.x, 9);
    expect(endToEnd!.length).toBeCloseTo(chord + 2 * Math.sqrt(tailLength(part.rule) ** 2 - from.y ** 2), 9);
    expect(tailLength(part.rule)).toBe(50.8);
  });
});
