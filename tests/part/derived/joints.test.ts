import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paramCurve } from '../../../src/curves/geometry/evaluate.ts';
import type { Segment } from '../../../src/curves/geometry/pieces/piece.ts';
import type { Point } from '../../../src/curves/geometry/point.ts';
import { distance } from '../../../src/curves/geometry/point.ts';
import { isPointInPath } from '../../../src/curves/geometry/point-in-path.ts';
import { isCuttingJoint, jointShape } from '../../../src/job/joints/joint-kinds.ts';
import { halfOf } from '../../../src/part/derived/half-pattern.ts';
import { isHanded } from '../../../src/part/handedness.ts';
import { faultsOf, partOf } from '../jobs.ts';

/** A hall bench rail 600 × 80 × 22, straight on both edges so that walls are read off at once. */
const rail = (joints: string, more = ''): string => `part: Rail
units: mm
stock: {thickness: 22}
edges:
  lower: [{from: [0, 0]}, {line: [600, 0]}]
  upper: [{from: [0, 80]}, {line: [600, 80]}]
joints: ${joints}
allowance: {saw: 3}
${more}`;

const codesOf = (joints: string) => faultsOf(rail(joints)).map(({ code, key }) => `${code} ${key}`);

describe('jointFaults by place of the joint', () => {
  test.each([
    ['[{mortise: {at: 100, out: 40, length: 50, width: 10}}]', []],
    ['[{hole: {at: 300, out: 100, diameter: 8}}]', ['joint.outside joints[0]']],
    ['[{hole: {at: -20, out: 40, diameter: 8}}]', ['joint.outside joints[0]']],
    ['[{hole: {at: 300, out: 81.5, diameter: 1}}]', ['joint.in-saw-line joints[0]']],
    ['[{hole: {at: 300, out: 78, diameter: 8}}]', ['joint.across-edge joints[0]']],
    ['[{hole: {at: 300, out: 40, diameter: 200}}]', ['joint.across-edge joints[0]']],
    ['[{mortise: {at: 10, out: 40, length: 50, width: 10}}]', ['joint.across-edge joints[0]']],
    ['[{mortise: {at: 300, out: 40, length: 90, width: 10, turn: 80}}]', ['joint.across-edge joints[0]']],
    ['[{slot: {at: 590, out: 40, length: 30, width: 10}}]', ['joint.across-edge joints[0]']],
    ['[{mark: {at: 700, label: seat line}}]', ['joint.outside joints[0]']],
    ['[{center-line: {at: 300}}, {center-line: {out: 40}}, {mark: {at: 200, out: 20, label: dowel}}]', []],
    [
      '[{hole: {at: 300, out: 40, diameter: 8}}, {mortise: {at: 305, out: 40, length: 40, width: 10}}]',
      ['joint.overlap joints[1]'],
    ],
    [
      '[{mortise: {at: 300, out: 40, length: 40, width: 30}}, {hole: {at: 300, out: 40, diameter: 2}}]',
      ['joint.overlap joints[1]'],
    ],
  ])('%s', (joints, codes) => {
    expect(codesOf(joints)).toEqual(codes);
  });

  test('a tilted hole is at another place on the other face', () => {
    // 22 mm deep at 20° is 8 mm to the side.
    const hole = (toward: string) =>
      `[{hole: {at: 300, out: 70, diameter: 10, lean: 20, toward: ${toward}}}]`;
    expect(codesOf(hole('out'))).toEqual(['joint.across-edge joints[0]']);
    expect(codesOf(hole('in'))).toEqual([]);
    const blind = hole('out').replace('lean', 'depth: 2, lean');
    expect(codesOf(blind)).toEqual([]);
  });

  test('a tilted hole opens the face by its diameter over the cosine of its angle', () => {
    // 10 mm at 60°: 20 mm along its lean, 10 from its middle to the edge at 80.
    const hole = (out: number) =>
      `[{hole: {at: 300, out: ${out}, diameter: 10, depth: 2, lean: 60, toward: in}}]`;
    expect(codesOf(hole(70.1))).toEqual(['joint.across-edge joints[0]']);
    expect(codesOf(hole(69.9))).toEqual([]);
  });
});

describe('a joint deeper than the wood', () => {
  const sizes = { mortise: 'length: 40, width: 12', slot: 'length: 40, width: 12', hole: 'diameter: 10' };

  test.each(Object.entries(sizes))('a %s of more than the thickness is a mistake', (kind, size) => {
    const joint = (depth: string) => `[{${kind}: {at: 300, out: 40, ${size}, depth: ${depth}}}]`;
    expect(codesOf(joint('22.5'))).toEqual(['joint.too-deep joints[0].depth']);
    for (const depth of ['1', '21.5', '22']) expect(codesOf(joint(depth))).toEqual([]);
  });

  test('it is reported beside another mistake, and not if the thickness is unknown', () => {
    const joints = '[{hole: {at: -20, out: 40, diameter: 8, depth: 30}}]';
    expect(codesOf(joints)).toEqual(['joint.outside joints[0]', 'joint.too-deep joints[0].depth']);
    const thin = rail('[{hole: {at: 300, out: 40, diameter: 8, depth: 30}}]').replace(/stock:.*\n/, '');
    expect(faultsOf(thin)).toEqual([]);
  });
});

describe('thin walls', () => {
  const warningsOf = (joints: string) => partOf(rail(joints)).warnings;

  test('a wall under 6 mm gives a warning with its width and place', () => {
    const [warning, ...more] = warningsOf('[{mortise: {at: 100, out: 70, length: 40, width: 12}}]');
    expect(more).toEqual([]);
    expect(warning).toMatchObject({ code: 'joint.thin-wall' });
    expect(warning!.message).toMatch(/ 4 mm .* (8|9|1\d)\d(\.5)? mm/);
  });

  test('a thin wall between two joints gives a warning', () => {
    const warnings = warningsOf(
      '[{hole: {at: 100, out: 40, diameter: 10}}, {hole: {at: 114, out: 40, diameter: 10}}]',
    );
    expect(warnings).toMatchObject([{ code: 'joint.thin-wall' }]);
    expect(warnings[0]!.message).toMatch(/ 4 mm .* 100 mm .* 114 mm/);
  });

  test('6 mm and more pass', () => {
    expect(warningsOf('[{mortise: {at: 100, out: 40, length: 40, width: 68}}]')).toEqual([]);
  });
});

test('how far a joint is from a point agrees with the nearest place of its outline', () => {
  const size = fc.integer({ min: 12, max: 60 });
  const kinds = fc.constantFrom('mortise', 'slot');
  fc.assert(
    fc.property(
      kinds,
      size,
      fc.integer({ min: 2, max: 11 }),
      fc.integer({ min: -80, max: 80 }),
      fc.integer({ min: 0, max: 600 }),
      fc.integer({ min: 0, max: 80 }),
      (kind, length, width, turn, x, y) => {
        const { joints } = partOf(
          rail(`[{${kind}: {at: 300, out: 40, length: ${length}, width: ${width}, turn: ${turn}}}]`),
        );
        const shape = jointShape(joints.filter(isCuttingJoint)[0]!);
        expect(Math.abs(shape.signedDistance({ x, y }))).toBeCloseTo(nearest(shape.outline, { x, y }), 1);
        expect(shape.signedDistance({ x, y }) < 0).toBe(isPointInPath(shape.outline, { x, y }));
      },
    ),
    { numRuns: 100 },
  );
});

/** By brute force, 400 places a segment. */
const nearest = (path: readonly Segment[], p: Point): number =>
  Math.min(
    ...path.flatMap((segment) =>
      Array.from({ length: 401 }, (_, i) => distance(paramCurve(segment)(i / 400), p)),
    ),
  );

describe('pairs and halves', () => {
  test('a plain part is its own mirror image turned over; a joint on the face or a tilted end is not', () => {
    const plain = rail('[]').replace('joints: []\n', '');
    expect(isHanded(partOf(plain))).toBe(false);
    expect(isHanded(partOf(`${plain}ends: {right: {miter: 10}}\n`))).toBe(false);
    expect(isHanded(partOf(`${plain}ends: {right: {bevel: 10}}\n`))).toBe(true);
    expect(isHanded(partOf(rail('[{mark: {at: 5, label: face}}]')))).toBe(true);
  });

  test('a half pattern takes joints that mirror each other, and no others', () => {
    const two = (second: number) =>
      partOf(
        rail(`[{hole: {at: 100, out: 40, diameter: 8}}, {hole: {at: ${second}, out: 40, diameter: 8}}]`),
      );
    expect(halfOf(two(500)).shape.type).toBe('half');
    expect(() => halfOf(two(480))).toThrowError(/no match/);
  });

  test('a half pattern takes ends that lean against each other, and no others', () => {
    const ends = (left: number) =>
      partOf(rail('[{center-line: {at: 300}}]', `ends: {left: {miter: ${left}}, right: {miter: 10}}\n`));
    expect(halfOf(ends(-10)).shape.type).toBe('half');
    expect(() => halfOf(ends(10))).toThrowError(/mirror images/);
  });
});
