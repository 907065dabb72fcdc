import { describe, expect, test } from 'vitest';
import { footOut } from '../../../src/part/ends/standing.ts';
import type { Part } from '../../../src/part/part.ts';
import { faultsOf, partOf } from '../jobs.ts';
import { cross, deg, dot, minus, scaled, unit, type Vector } from './vectors.ts';

// The leg as a solid in the room, by its corners alone; the reference face is at z = thickness.

const THICK = 40;

const leg = (stands: string, upper = '    - line: [500, 60]\n'): Part =>
  partOf(
    `part: Leg\nunits: mm\nstock: {thickness: ${THICK}}\nstands: ${stands}\nedges:\n` +
      `  outer:\n    - from: [0, 0]\n    - line: [500, 0]\n  inner:\n    - from: [0, 60]\n${upper}`,
  );

/** The corners of an end: low and high on the reference face, low and high on the other. */
function cornersOf(part: Part, side: 'left' | 'right'): readonly Vector[] {
  const { face, back } = part.ends!.find((end) => end.side === side)!;
  return [...face.map(({ x, y }): Vector => [x, y, THICK]), ...back.map(({ x, y }): Vector => [x, y, 0])];
}

interface Stood {
  readonly up: Vector;
  readonly foot: readonly Vector[];
  readonly top: readonly Vector[];
}

function stand(part: Part): Stood {
  const { foot } = part.stands!;
  const [bottom, top] = [cornersOf(part, foot), cornersOf(part, foot === 'left' ? 'right' : 'left')];
  const [a, b, c] = bottom as [Vector, Vector, Vector];
  const normal = unit(cross(minus(b, a), minus(c, a)));
  const up = dot(minus(top[0]!, a), normal) > 0 ? normal : scaled(normal, -1);
  return { up, foot: bottom, top };
}

const SIDES = {
  outer: [0, -1, 0],
  inner: [0, 1, 0],
  'reference-face': [0, 0, 1],
  'other-face': [0, 0, -1],
} as const;
const COMBINATIONS = (['left', 'right'] as const).flatMap((foot) =>
  (['outer', 'inner'] as const).flatMap((edge) =>
    (['reference-face', 'other-face'] as const).flatMap((face) =>
      (['none', 'level-across'] as const).map((twist) => [foot, edge, face, twist] as const),
    ),
  ),
);

describe.each(COMBINATIONS)(
  'a leg with its foot at the %s, out towards %s and %s, twist %s',
  (foot, edge, face, twist) => {
    const part = leg(`{foot: ${foot}, foot-out: {${edge}: 6, ${face}: 4, twist: ${twist}}}`);
    const { up, foot: bottom, top } = stand(part);
    const axis: Vector = foot === 'left' ? [1, 0, 0] : [-1, 0, 0];

    test('has its whole foot on the floor and its top level', () => {
      const heights = [bottom, top].map((corners) => corners.map((at) => dot(at, up)));
      for (const level of heights) for (const height of level) expect(height).toBeCloseTo(level[0]!, 9);
    });

    test('leans as it is said, in both elevations', () => {
      // Not twisted, the views look square at the leg's own sides; else along and across the level line of the face.
      const across: Vector = twist === 'none' ? [0, 1, 0] : unit(cross(up, [0, 0, 1]));
      const through: Vector = twist === 'none' ? [0, 0, 1] : cross(up, across);
      if (twist === 'none') {
        expect(deg(Math.atan2(dot(up, SIDES[edge]), dot(up, axis)))).toBeCloseTo(6, 9);
        expect(deg(Math.atan2(dot(up, SIDES[face]), dot(up, axis)))).toBeCloseTo(4, 9);
      } else {
        const [toEdge, toFace] = [
          dot(SIDES[edge], across) > 0 ? 1 : -1,
          dot(SIDES[face], through) > 0 ? 1 : -1,
        ];
        expect(deg(Math.atan2(-toEdge * dot(axis, across), dot(axis, up)))).toBeCloseTo(6, 9);
        expect(deg(Math.atan2(-toFace * dot(axis, through), dot(axis, up)))).toBeCloseTo(4, 9);
        expect(Math.abs(dot(across, [0, 0, 1]))).toBeLessThan(1e-12);
      }
    });

    test('shows how far its foot is outside the top', () => {
      const height = dot(minus(top[0]!, bottom[0]!), up);
      expect(footOut(part).map(({ towards }) => towards)).toEqual([edge, face]);
      const [toEdge, toFace] = footOut(part).map(({ distance }) => distance);
      expect(toEdge).toBeCloseTo(height * Math.tan((6 * Math.PI) / 180), 9);
      expect(toFace).toBeCloseTo(height * Math.tan((4 * Math.PI) / 180), 9);
      const reach = minus(bottom[0]!, top[0]!);
      const level = minus(reach, scaled(up, dot(reach, up)));
      expect(dot(level, SIDES[edge])).toBeGreaterThan(0);
      expect(dot(level, SIDES[face])).toBeGreaterThan(0);
    });
  },
);

test('the lean of both is that of the two elevations, by Pythagoras on the floor', () => {
  const [end] = leg('{foot: left, foot-out: {inner: 10, reference-face: 10}}').ends!;
  expect(Math.tan(end.angles.lean)).toBeCloseTo(
    Math.hypot(Math.tan(Math.PI / 18), Math.tan(Math.PI / 18)),
    12,
  );
});

test('an upright leg has square ends, and one that leans to an edge alone needs no thickness', () => {
  expect(leg('{foot: left}').ends!.map(({ by }) => by)).toEqual(['square', 'square']);
  const bare =
    'part: Leg\nunits: mm\nstands: {foot: left, foot-out: {a: 6}}\nedges:\n  a: [from: [0, 0], {line: [500, 0]}]\n  b: [from: [0, 50], {line: [500, 50]}]\n';
  expect(partOf(bare).ends?.[0].angles.rake).toBeCloseTo((-6 * Math.PI) / 180, 12);
});

test('a leg between parallel curves stands level, too', () => {
  const part = partOf(
    `part: Leg\nunits: mm\nstock: {thickness: ${THICK}}\nstands: {foot: left, foot-out: {outer: 5, other-face: 3}}\nedges:\n` +
      '  inner:\n    - from: [0, 60]\n    - arc: [500, 60]\n      rise: 25\n  outer:\n    parallel: inner\n    by: -45\n',
  );
  const { up, foot, top } = stand(part);
  for (const corners of [foot, top])
    for (const at of corners) expect(dot(at, up)).toBeCloseTo(dot(corners[0]!, up), 6);
});

describe('mistakes', () => {
  const text = (stands: string, more = ''): string =>
    `part: Leg\nunits: mm\n${more}stock: {thickness: 40}\nstands: ${stands}\nedges:\n  a: [from: [0, 0], {line: [500, 0]}]\n  b: [from: [0, 50], {line: [500, 50]}]\n`;
  test.each([
    ['no foot', text('{foot-out: {a: 6}}'), 'job.missing', 'stands.foot'],
    ['an unknown end', text('{foot: up}'), 'job.unknown-word', 'stands.foot'],
    [
      'an edge that is not there',
      text('{foot: left, foot-out: {c: 6}}'),
      'job.unknown-key',
      'stands.foot-out.c',
    ],
    ['two edges', text('{foot: left, foot-out: {a: 6, b: 4}}'), 'job.one-of', 'stands.foot-out.b'],
    [
      'two faces',
      text('{foot: left, foot-out: {reference-face: 6, other-face: 4}}'),
      'job.one-of',
      'stands.foot-out.other-face',
    ],
    ['an angle under 0', text('{foot: left, foot-out: {a: -6}}'), 'job.stands', 'stands.foot-out.a'],
    ['ends beside it', text('{foot: left}', 'ends: {left: square}\n'), 'job.one-of', 'ends'],
    [
      'an edge with a taken name',
      text('{foot: left}').replace('  a:', '  twist:'),
      'job.edge-name',
      'edges.twist',
    ],
    ['one edge', text('{foot: left}').replace(/ {2}b:.*\n/, ''), 'ends.one-edge', 'stands'],
    [
      'a lean through wood of unknown thickness',
      text('{foot: left, foot-out: {other-face: 4}}').replace('stock: {thickness: 40}\n', ''),
      'ends.no-thickness',
      'stands',
    ],
  ])('%s', (_, job, code, key) => {
    expect(faultsOf(job)).toContainEqual(expect.objectContaining({ code, key }));
  });
});
