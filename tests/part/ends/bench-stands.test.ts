import { describe, expect, test } from 'vitest';
import { edgeEnd, edgeStart } from '../../../src/part/edge.ts';
import type { Part } from '../../../src/part/part.ts';
import { samplePart } from '../jobs.ts';
import { cross, deg, dot, minus, scaled, unit, type Vector } from './vectors.ts';

// The parts as solids in the room, by their corners alone: no angle that fairlath works out is used here.

/** From the length of the cross product: acos sees nothing of a small angle. */
const angleBetween = (a: Vector, b: Vector): number => {
  const turned = cross(a, b);
  return deg(Math.atan2(Math.sqrt(dot(turned, turned)), dot(a, b)));
};

/** The plane of a sawn end in the part's frame, out of the wood: z is over the marked face. */
function endNormal(part: Part, side: 'left' | 'right'): Vector {
  const { face, back } = part.ends!.find((end) => end.side === side)!;
  const low: Vector = [face[0].x, face[0].y, 0];
  const high: Vector = [face[1].x, face[1].y, 0];
  const under: Vector = [back[0].x, back[0].y, -part.stock!.thickness!];
  const normal = unit(cross(minus(high, low), minus(under, low)));
  return normal[0] > 0 === (side === 'right') ? normal : scaled(normal, -1);
}

const leg = samplePart('hall-bench/leg.yaml');
/** The foot is at the left and lies on the floor: out of the top is up. */
const up = endNormal(leg, 'right');
const level = (a: Vector): Vector => unit(minus(a, scaled(up, dot(a, up))));
const MARKED: Vector = [0, 0, 1];
const INNER: Vector = [0, 1, 0];

/** A rail that runs level away from a face of the leg, upright in the room: its end's plane in the leg's frame. */
function railEnd(rail: Part, side: 'left' | 'right', face: Vector): Vector {
  const along = scaled(level(face), side === 'left' ? 1 : -1);
  const [x, y, z] = endNormal(rail, side);
  const through = cross(along, up);
  const add = (i: 0 | 1 | 2): number => x * along[i] + y * up[i] + z * through[i];
  return [add(0), add(1), add(2)];
}

describe('the hall bench on its splayed legs', () => {
  test('each leg stands level on its foot', () => {
    expect(angleBetween(scaled(endNormal(leg, 'left'), -1), up)).toBeLessThan(1e-6);
  });

  test.each([
    ['apron', MARKED],
    ['end-rail', INNER],
  ] as const)('the shoulders of the %s lie on the face of the leg that it meets', (name, face) => {
    const rail = samplePart(`hall-bench/${name}.yaml`);
    for (const side of ['left', 'right'] as const)
      expect(angleBetween(railEnd(rail, side, face), scaled(face, -1))).toBeLessThan(0.05);
  });

  test('its feet stand out along the bench and across it', () => {
    const towardFoot: Vector = [-1, 0, 0];
    // Into the bench the marked face looks along it, the inner edge across it.
    expect(deg(Math.asin(-dot(towardFoot, level(MARKED))))).toBeCloseTo(6, 1);
    expect(deg(Math.asin(-dot(towardFoot, level(INNER))))).toBeCloseTo(4, 1);
  });

  test('seen from above apron and end rail stand square but for less than a shaving', () => {
    const off = Math.abs(90 - angleBetween(level(MARKED), level(INNER)));
    // Half to each shoulder, through the thickness of its rail.
    expect((7 / 8) * Math.tan(((off / 2) * Math.PI) / 180)).toBeLessThan(0.004);
  });

  test('the stretcher lies level in the holes of two legs and reaches into both', () => {
    const hole = leg.joints.find(({ label }) => label === 'stretcher')!;
    if (hole.kind !== 'hole' || !hole.lean || !hole.depth) throw new Error('no leaning hole');
    const { toward, by } = hole.lean;
    const way = { left: [-1, 0], right: [1, 0], out: [0, 1], in: [0, -1] }[toward] as [number, number];
    const bit: Vector = [way[0] * Math.sin(by), way[1] * Math.sin(by), -Math.cos(by)];
    expect(Math.abs(90 - angleBetween(bit, up))).toBeLessThan(0.05);
    const apron = leg.joints.find(({ label }) => label === 'apron')!;
    if (apron.kind !== 'mortise' || !apron.depth) throw new Error('no mortise');
    const overAll = (name: string): number => {
      const { edges } = samplePart(`hall-bench/${name}.yaml`);
      return edgeEnd(edges[0]).x - edgeStart(edges[0]).x;
    };
    const below = apron.at.x - apron.length / 2 - hole.at.x;
    const between = overAll('apron') - 2 * apron.depth + 2 * below * dot([1, 0, 0], level(MARKED));
    const length = overAll('stretcher');
    expect(length).toBeGreaterThan(between + hole.depth);
    expect(length).toBeLessThan(between + 2 * hole.depth);
  });
});
