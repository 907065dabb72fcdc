import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pathBounds } from '../../../src/curves/geometry/bounds.ts';
import { paramCurve, pieceStart } from '../../../src/curves/geometry/evaluate.ts';
import { distance } from '../../../src/curves/geometry/point.ts';
import { bladeDepth } from '../../../src/part/ends/compound-angles.ts';
import { longAndShortPoints, trueShape } from '../../../src/part/ends/end-planes.ts';
import type { Part } from '../../../src/part/part.ts';
import { finishedLine } from '../../../src/part/part-lines.ts';
import { faultsOf, partOf } from '../jobs.ts';

const degrees = (angle: number): number => (angle * 180) / Math.PI;
const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

/** A hall bench leg 860 long, 45 thick, straight in front, a batten behind. */
const leg = (ends: string, thickness = 'thickness: 45'): string => `part: Leg
units: mm
stock: {length: 900, ${thickness}}
edges:
  front: [{from: [0, 0]}, {line: [860, 0]}]
  back: [{from: [0, 45]}, {batten: [860, 50], through: [400, 80]}]
ends: ${ends}
allowance: {saw: 2}
`;

const endsOf = (part: Part) => part.ends!;

describe('how the cut lies', () => {
  test('square ends leave the outline as it is without them', () => {
    const plain = partOf(leg('{left: square, right: square}'));
    const none = partOf(leg('{left: square}').replace(/ends: .*\n/, ''));
    expect(plain.shape).toEqual(none.shape);
    expect(plain.saw).toEqual(none.saw);
  });

  test('a rake of 6° leans the cut line on the face by 6° and stops at the long point', () => {
    const [left, right] = endsOf(partOf(leg('{left: {rake: 6}, right: {rake: 6}}')));
    const { face } = right;
    expect(face[0]).toEqual({ x: 860, y: 0 });
    expect(face[1].x).toBeCloseTo(860 - face[1].y * tan(6), 9);
    expect(left.face[1]).toEqual({ x: 0, y: 45 });
    expect(left.face[0].x).toBeCloseTo(45 * tan(6), 9);
  });

  test('ends that lean alike are parallel; ends that lean against each other make a trapezoid', () => {
    const [a, b] = endsOf(partOf(leg('{left: {miter: 12}, right: {miter: 12}}')));
    const slope = ({ face: [low, high] }: typeof a): number => (high.x - low.x) / (high.y - low.y);
    expect(slope(a)).toBeCloseTo(slope(b), 12);
    const [c, d] = endsOf(partOf(leg('{left: {miter: -12}, right: {miter: 12}}')));
    expect(slope(c)).toBeCloseTo(-slope(d), 12);
  });

  test('a bevel puts the long point of one face at the last station', () => {
    const part = partOf(leg('{left: {rake: 6, splay: 4}, right: {rake: 6, splay: 4}}'));
    for (const end of endsOf(part)) {
      const { long } = longAndShortPoints(end);
      expect(long.x).toBeCloseTo(end.side === 'left' ? 0 : 860, 9);
      expect(long.on).toBe(end.side === 'left' ? 'face' : 'back');
      expect(end.back[0].x - end.face[0].x).toBeCloseTo(45 * tan(4), 9);
    }
  });

  test('square through the wood, long and short point are on both faces', () => {
    const [, right] = endsOf(partOf(leg('{right: {miter: 10}}')));
    const { long, short } = longAndShortPoints(right);
    expect([long.on, short.on]).toEqual(['both faces', 'both faces']);
    expect(long.x - short.x).toBeCloseTo(short.y * tan(10), 9);
  });
});

describe('the plane of the cut, calculated independently', () => {
  /** The plumb line's direction by turning the part's axis: splay about the offset axis, rake about the thickness. */
  const plumb = (rake: number, splay: number): [number, number, number] => [1, tan(rake), tan(splay)];

  test.each([
    [6, 4],
    [-8, 5],
    [14, -10],
    [0, 12],
  ])(
    'rake %d°, splay %d°: all corners of an end lie in one plane square to the plumb line',
    (rake, splay) => {
      for (const end of endsOf(
        partOf(leg(`{left: {rake: ${rake}, splay: ${splay}}, right: {rake: ${rake}, splay: ${splay}}}`)),
      )) {
        const [vx, vy, vz] = plumb(rake, splay);
        const heights = [
          ...end.face.map(({ x, y }) => vx * x + vy * y),
          ...end.back.map(({ x, y }) => vx * x + vy * y - 45 * vz),
        ];
        for (const height of heights) expect(height).toBeCloseTo(heights[0]!, 7);
      }
    },
  );

  test('the true shape keeps the lengths of the cut’s four sides and its diagonal', () => {
    const [, end] = endsOf(partOf(leg('{right: {rake: 9, splay: 13}}')));
    const corners = trueShape(end, 45);
    const space = [
      [end.face[0], 0],
      [end.face[1], 0],
      [end.back[1], -45],
      [end.back[0], -45],
    ] as const;
    for (const [i, j] of [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 0],
      [0, 2],
      [1, 3],
    ] as const) {
      const [[p, z], [q, w]] = [space[i], space[j]];
      expect(distance(corners[i], corners[j])).toBeCloseTo(Math.hypot(p.x - q.x, p.y - q.y, z - w), 7);
    }
  });
});

test('the true shape of an end where the edges meet is as flat as it is', () => {
  const pointed = `part: Wedge
units: mm
stock: {thickness: 45}
edges:
  front:
    - from: [0, 0]
    - line: [300, 0]
  back:
    - from: [0, 0]
    - line: [300, 60]
ends: {right: {bevel: 30}}
`;
  const [point] = endsOf(partOf(pointed));
  expect(trueShape(point, 45).map(({ x, y }) => [x, y])).toEqual([
    [0, 0],
    [0, 0],
    [0, 45],
    [0, 45],
  ]);
});

test('3 1/2 in thick at a bevel of 12° needs 3 9/16 in full of blade', () => {
  // 3.5 ÷ cos 12° = 3.578192: worked by hand.
  expect(bladeDepth(3.5, (12 * Math.PI) / 180)).toBeCloseTo(3.578192, 6);
});

test('miter and bevel are the saw’s words for the same stance', () => {
  const [, stance] = endsOf(partOf(leg('{right: {rake: 14, splay: 10}}')));
  const { miter, bevel } = stance.angles;
  const [, saw] = endsOf(partOf(leg(`{right: {miter: ${degrees(miter)}, bevel: ${degrees(bevel)}}}`)));
  expect(degrees(saw.angles.splay)).toBeCloseTo(10, 9);
  expect(saw.face[1].x).toBeCloseTo(stance.face[1].x, 9);
});

test('whatever the angles, the outline stays closed, inside its stations, and the saw line outside it', () => {
  const angle = fc.integer({ min: -40, max: 40 });
  fc.assert(
    fc.property(angle, angle, angle, angle, (rl, sl, rr, sr) => {
      const part = partOf(leg(`{left: {rake: ${rl}, splay: ${sl}}, right: {rake: ${rr}, splay: ${sr}}}`));
      const outline = finishedLine(part.shape);
      outline.forEach((segment, i) => {
        const next = outline[(i + 1) % outline.length]!;
        expect(distance(paramCurve(segment)(1), pieceStart(next))).toBeLessThan(0.01);
      });
      const box = pathBounds(outline);
      expect(box.left).toBeGreaterThan(-1e-6);
      expect(box.right).toBeLessThan(860 + 1e-6);
      expect(part.bounds.left).toBeLessThan(box.left);
    }),
    { numRuns: 60 },
  );
});

describe('what cannot be cut', () => {
  test.each([
    ['{right: {splay: 4}}', 'width: 90', 'ends.no-thickness', 'ends.right'],
    ['{left: {rake: 74}, right: {rake: 74}}', 'thickness: 45', undefined, undefined],
  ])('%s', (ends, thickness, code, key) => {
    const [fault] = faultsOf(leg(ends, thickness));
    expect([fault?.code, fault?.key]).toEqual([code, key]);
  });

  test('a cut as long as the part leaves nothing of it', () => {
    const short = leg('{left: {rake: 70}, right: {rake: -70}}').replaceAll('860', '90').replace('400', '40');
    expect(faultsOf(short)).toMatchObject([{ code: 'ends.cut-twice' }]);
  });

  test('a line pattern has no end to cut', () => {
    const line = leg('{right: {miter: 5}}').replace(/ {2}back.*\n/, '');
    expect(faultsOf(line)).toMatchObject([{ code: 'ends.one-edge', key: 'ends.right' }]);
  });
});
