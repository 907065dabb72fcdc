import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PartEnd } from '../../../src/part/ends/end-planes.ts';
import type { Part } from '../../../src/part/part.ts';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { endSetUp, leanOfBlade } from '../../../src/shop/saw/end-set-up.ts';
import { partOf } from '../../part/jobs.ts';

const LENGTH = 500;
const bar = (ends: string, near = 'line: [500, 0]', far = 'line: [500, 60]'): Part =>
  partOf(`part: Bar
units: mm
stock: {thickness: 40}
edges:
  near: [{from: [0, 0]}, {${near}}]
  far: [{from: [0, 60]}, {${far}}]
ends: {left: ${ends}, right: ${ends}}
`);
const angle = fc.integer({ min: -40, max: 40 });

type Place = readonly [x: number, y: number, z: number];

const cornersOf = ({ face, back }: PartEnd): Place[] => [
  ...face.map(({ x, y }): Place => [x, y, 0]),
  ...back.map(({ x, y }): Place => [x, y, -40]),
];

/** On the table, from above: to the right of who feeds, along the feed, up. The gauge turns the part with it. */
function onTable([x, y, z]: Place, swing: number, isFarEdgeAtGauge: boolean): Place {
  // The edge at the gauge is the one near to who feeds: the far edge comes there by half a turn.
  const [right, ahead] = isFarEdgeAtGauge ? [LENGTH - x, 60 - y] : [x, y];
  const [c, s] = [Math.cos(swing), Math.sin(swing)];
  return [c * right + s * ahead, c * ahead - s * right, z];
}

/** How far places lie apart, square to a blade that leans to the left by its tilt as it rises. */
function spreadAcrossBlade(places: readonly Place[], tilt: number): number {
  const across = places.map(([right, , z]) => Math.cos(tilt) * right + Math.sin(tilt) * z);
  return Math.max(...across) - Math.min(...across);
}

const ends = (across: number, through: number): string => `{miter: ${across}, bevel: ${through}}`;

describe('the set-up of the saw for an end', () => {
  test('cuts its plane, with either edge against the gauge', () => {
    fc.assert(
      fc.property(angle, angle, (miter, bevel) => {
        const part = bar(ends(miter, bevel));
        const { edges } = adviseSawing(part);
        for (const end of part.ends!) {
          const { edge, swing, tilt } = endSetUp(end, edges);
          expect(edge).toBe('near');
          const near = cornersOf(end).map((place) => onTable(place, swing, false));
          expect(spreadAcrossBlade(near, tilt)).toBeLessThan(1e-9);
          const far = cornersOf(end).map((place) => onTable(place, swing, true));
          expect(spreadAcrossBlade(far, -tilt)).toBeLessThan(1e-9);
          // With the tilt of the other saw and no change of edge the cut would be another.
          if (bevel !== 0) expect(spreadAcrossBlade(near, -tilt)).toBeGreaterThan(0.5);
        }
      }),
    );
  });

  test('has the straight edge against the gauge, the far one where the near one is curved', () => {
    fc.assert(
      fc.property(angle, angle, (miter, bevel) => {
        const part = bar(ends(miter / 4, bevel), 'arc: [500, 0], rise: 20');
        for (const end of part.ends!) {
          const { edge, swing, tilt } = endSetUp(end, adviseSawing(part).edges);
          expect(edge).toBe('far');
          const placed = cornersOf(end).map((place) => onTable(place, swing, true));
          // The corners of a curved edge lie on the same plane as they do on a straight one.
          expect(spreadAcrossBlade(placed, tilt)).toBeLessThan(1e-6);
        }
      }),
    );
  });

  test('names no edge where both are curved', () => {
    const part = bar(ends(5, 5), 'arc: [500, 0], rise: 20', 'arc: [500, 60], rise: 20');
    const setUp = endSetUp(part.ends![1], adviseSawing(part).edges);
    expect(setUp.edge).toBeUndefined();
    expect(leanOfBlade(setUp)).toBe('left');
  });

  test('leans the blade to neither side for a miter alone', () => {
    expect(leanOfBlade({ swing: 0.1, tilt: 0 })).toBeUndefined();
  });
});
