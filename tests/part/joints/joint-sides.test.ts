import { describe, expect, test } from 'vitest';
import type { CuttingJoint } from '../../../src/job/joints/joint-kinds.ts';
import { isCuttingJoint } from '../../../src/job/joints/joint-kinds.ts';
import { edgeMarks, jointExtent } from '../../../src/part/joints/edge-joint.ts';
import { jointFrame } from '../../../src/part/joints/joint-frame.ts';
import { volumeOf } from '../../../src/part/outline/area-and-volume.ts';
import type { Part } from '../../../src/part/part.ts';
import { dot, unit, type Vector } from '../ends/vectors.ts';
import { faultsOf, partOf } from '../jobs.ts';

/** A rail 600 × 80 × 22, straight on both edges so that walls are read off at once. */
const rail = (joints: string): string => `part: Rail
units: mm
stock: {thickness: 22}
edges:
  lower: [{from: [0, 0]}, {line: [600, 0]}]
  upper: [{from: [0, 80]}, {line: [600, 80]}]
joints: ${joints}
`;
const codesOf = (joints: string) => faultsOf(rail(joints)).map(({ code, key }) => `${code} ${key}`);

describe('a joint on another side', () => {
  const onUpper = (place: string, depth: number) =>
    `[{mortise: {${place}, length: 50, width: 8, depth: ${depth}, face: upper}}]`;

  test.each([
    [onUpper('at: 300, out: 11', 40), []],
    [onUpper('at: 300, out: 11', 80.5), ['joint.too-deep joints[0].depth']],
    [onUpper('at: 300, out: 3', 20), ['joint.across-edge joints[0]']],
    [onUpper('at: 300, out: 19', 20), ['joint.across-edge joints[0]']],
    [onUpper('at: 20, out: 11', 20), ['joint.outside joints[0]']],
    [onUpper('at: 700, out: 11', 20), ['joint.outside joints[0]']],
    ['[{hole: {at: 300, out: 78, diameter: 8, face: other-face}}]', ['joint.across-edge joints[0]']],
    [
      '[{hole: {at: 300, out: 40, diameter: 8, depth: 23, face: other-face}}]',
      ['joint.too-deep joints[0].depth'],
    ],
    // 10 mm from the reference face and 11 mm from the other leave 1 mm; 12 mm run into each other.
    [
      '[{hole: {at: 300, out: 40, diameter: 8, depth: 10}}, {hole: {at: 300, out: 40, diameter: 8, depth: 11, face: other-face}}]',
      [],
    ],
    [
      '[{hole: {at: 300, out: 40, diameter: 8, depth: 10}}, {hole: {at: 300, out: 40, diameter: 8, depth: 13, face: other-face}}]',
      ['joint.overlap joints[1]'],
    ],
    [
      '[{hole: {at: 300, out: 40, diameter: 8, depth: 10}}, {mortise: {at: 300, out: 9, length: 50, width: 8, depth: 50, face: upper}}]',
      ['joint.overlap joints[1]'],
    ],
  ])('%s', (joints, codes) => {
    expect(codesOf(joints)).toEqual(codes);
  });

  test('the wood that it removes is that of its own plane', () => {
    const bare = volumeOf(partOf(rail('[{mark: {at: 300, label: middle}}]')))!.volume;
    const cut = volumeOf(partOf(rail(onUpper('at: 300, out: 11', 30))))!.volume;
    expect(bare - cut).toBeCloseTo(50 * 8 * 30, 6);
    const through = '[{hole: {at: 300, out: 11, diameter: 6, face: lower}}]';
    expect(bare - volumeOf(partOf(rail(through)))!.volume).toBeCloseTo(Math.PI * 9 * 80, 6);
  });

  test('on an edge it is marked from its start to its end', () => {
    const part = partOf(rail(onUpper('at: 300, out: 11', 30)));
    expect(edgeMarks(part.joints[0]!, part)).toMatchObject({
      start: { x: 275, y: 80 },
      end: { x: 325, y: 80 },
      near: 7,
      far: 15,
    });
  });

  test('a side that is not there, and a thickness that is missing, are mistakes', () => {
    const job = (stock: string, face: string) =>
      rail(`[{hole: {at: 300, out: 11, diameter: 4, depth: 5, face: ${face}}}]`).replace(/stock.*\n/, stock);
    expect(faultsOf(job('', 'upper'))[0]?.code).toBe('joint.no-thickness');
    expect(() => partOf(job('stock: {thickness: 22}\n', 'uper'))).toThrow(/upper/);
  });
});

const leg = (level: string) => `part: Leg
units: mm
stock: {thickness: 44}
edges:
  outer: [{from: [0, 0]}, {line: [450, 0]}]
  inner: [{from: [0, 60]}, {line: [450, 70]}]
stands: {foot: left, foot-out: {outer: 8, reference-face: 5}}
joints:
  - mortise: {at: 380, out: 30, length: 60, width: 12, depth: 16, ${level}}
  - mortise: {at: 250, out: 20, length: 60, width: 12, depth: 20, face: inner, ${level}}
  - mortise: {at: 140, out: 22, length: 60, width: 12, depth: 20, face: outer, ${level}}
`;

describe('a level joint', () => {
  /** The ends are cut level with the floor, so that plumb is square to them: from their corners alone. */
  function plumbOf(part: Part): Vector {
    const [{ face, back }] = part.ends!;
    const across: Vector = [face[1].x - face[0].x, face[1].y - face[0].y, 0];
    const through: Vector = [back[0].x - face[0].x, back[0].y - face[0].y, -part.stock!.thickness!];
    return unit([
      across[1] * through[2] - across[2] * through[1],
      across[2] * through[0] - across[0] * through[2],
      across[0] * through[1] - across[1] * through[0],
    ]);
  }

  function endOf(joint: CuttingJoint, part: Part): Vector {
    if (!('turn' in joint)) throw new Error('not a mortise');
    const across = { x: joint.at.x - Math.sin(joint.turn), y: joint.at.y + Math.cos(joint.turn) };
    const frame = jointFrame(joint, part)!;
    const [from, to] = [frame.place(joint.at, 0), frame.place(across, 0)];
    return [to.x - from.x, to.y - from.y, from.depth - to.depth];
  }

  test('has level ends on a face and on both edges', () => {
    const part = partOf(leg('level: true'));
    const joints = part.joints.filter(isCuttingJoint);
    expect(joints).toHaveLength(3);
    for (const joint of joints) {
      expect(dot(plumbOf(part), endOf(joint, part))).toBeCloseTo(0, 12);
      expect(jointExtent(joint).top - jointExtent(joint).bottom).toBeGreaterThan(12);
    }
  });

  test('needs a part that stands, and no angle beside it', () => {
    const lying = leg('level: true').replace(/stands.*\n/, '');
    expect(() => partOf(lying)).toThrow(/stands/);
    expect(() => partOf(leg('level: true, turn: 3'))).toThrow(/not both/);
  });
});
