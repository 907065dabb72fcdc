import { describe, expect, test } from 'vitest';
import { cross, distance, dot, type Point, subtract } from '../../../src/curves/geometry/point.ts';
import { adviseStrips } from '../../../src/shop/strip/part-strips.ts';
import { type StripFaces, stripFaces } from '../../../src/shop/strip/strip-faces.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { partOf, samplePart } from '../../part/jobs.ts';

const ask = { species: findSpecies('white oak'), rule: defaultRule('mm') };
const batten = (rest: string) =>
  partOf(
    `part: Rail\nunits: mm\nedges:\n  rail:\n    - from: [0, 10]\n    - batten: [900, 40]\n      ${rest}\n`,
  );

const PARTS = {
  'one nail': batten('through: [350, 110]'),
  'nails on both sides': batten('through: [[200, 80], [500, 20], [700, 90]]'),
  'held at its start': batten('through: [350, 60]\n      ends: [held, free]'),
  'planed to a taper': batten('through: [350, 110]\n      strip: {from: 9, to: 4}'),
  'the sample leg': samplePart('hall-bench-leg.yaml'),
};

/** How far a point lies from a chain of chords. */
const toChain = (to: Point, chain: readonly Point[]): number =>
  Math.min(
    ...chain.slice(1).map((end, i) => {
      const start = chain[i]!;
      // Where two spans meet there is a place of each.
      if (distance(start, end) === 0) return distance(start, to);
      const [along, out] = [subtract(end, start), subtract(to, start)];
      const share = Math.min(Math.max(dot(out, along) / dot(along, along), 0), 1);
      return distance(out, { x: along.x * share, y: along.y * share });
    }),
  );

const thicknesses = ({ traced, other }: StripFaces): number[] => traced.map((p, i) => distance(p, other[i]!));

describe.each(Object.entries(PARTS))('%s', (_, part) => {
  const [{ curve, advice }] = adviseStrips(part, ask);
  const faces = stripFaces(curve, advice);

  test('every nail touches the strip and does not overlap it', () => {
    for (const { centers } of advice.nails)
      for (const centre of centers) {
        const gaps = [faces.traced, faces.other].map((face) => toChain(centre, face));
        // Chords between the places of a face stray by a hundredth of a millimetre from it.
        expect(Math.min(...gaps)).toBeCloseTo(advice.nailDiameter / 2, 1);
      }
  });

  test('the traced face lies on the line and runs straight on by the overhang', () => {
    expect(faces.traced[1]).toEqual({ x: curve.from.x, y: curve.from.y });
    for (const face of [faces.traced, faces.traced.toReversed()]) {
      expect(distance(face[0]!, face[1]!)).toBeCloseTo(advice.overhang, 9);
      const [out, first] = [subtract(face[0]!, face[1]!), subtract(face[1]!, face[2]!)];
      // Free or held, the strip runs on in the direction it has at its last nail.
      expect(cross(out, first) / (advice.overhang * distance(face[1]!, face[2]!))).toBeCloseTo(0, 1);
    }
  });

  test('the faces are as far apart as the strip is thick', () => {
    const found = thicknesses(faces);
    const tapered = advice.tapered ? 4 / 9 : 1;
    expect(found[0]).toBeCloseTo(advice.thickness, 9);
    expect(found.at(-1)).toBeCloseTo(advice.thickness * tapered, 9);
    for (const [i, thick] of found.slice(1).entries()) expect(thick).toBeLessThanOrEqual(found[i]! + 1e-9);
  });
});
