import { describe, expect, test } from 'vitest';
import { distance, point } from '../../../src/curves/geometry/point.ts';
import { edgesAsCut } from '../../../src/part/outline/outline.ts';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { tightestBends } from '../../../src/shop/saw/bends-and-corners.ts';
import { adviseBlade } from '../../../src/shop/saw/blade-advice.ts';
import { cutSteps } from '../../../src/shop/words/cut-order.ts';
import { describeBlade } from '../../../src/shop/words/describe-blade.ts';
import { lengthFormat } from '../../../src/units/graduation.ts';
import { partOf } from '../../part/jobs.ts';

const INCH = 25.4;
const part = (edges: string) => partOf(`part: Rail\nunits: in\nedges:\n${edges}`);
describe('bends as tight as each other', () => {
  // Half an ellipse a = 5, b = 2 in: radius b²/a = 0.8 in at either end.
  const oval = part('  belly:\n    - from: [0, 0]\n    - ellipse: [10, 0]\n      rise: -2\n');
  // Two hollows of 2 in radius with a straight between, and on the other edge another.
  const arcs = part(`
  lower:
    - from: [0, 0]
    - line: [2, 0]
    - arc: [4, 0]
      radius: 2
    - line: [8, 0]
    - arc: [10, 0]
      radius: 2
    - line: [12, 0]
  upper:
    - from: [0, 4]
    - line: [5, 4]
    - arc: [7, 4]
      radius: -2
    - line: [12, 4]
`);

  test('an ellipse is tightest at both ends', () => {
    const { hollows, rounds } = adviseBlade(oval, edgesAsCut(oval), {});
    expect(hollows).toEqual([]);
    expect(rounds.map(({ at }) => at.x)).toEqual([expect.closeTo(0, 6), expect.closeTo(10 * INCH, 6)]);
    for (const { radius } of rounds) expect(radius).toBeCloseTo(0.8 * INCH, 6);
  });

  test('equal arcs each give their middle, on either edge', () => {
    const { hollows } = adviseBlade(arcs, edgesAsCut(arcs), {});
    expect(hollows.map(({ at, edge }) => [Number((at.x / INCH).toFixed(6)), edge])).toEqual([
      [3, 'lower'],
      [9, 'lower'],
      [6, 'upper'],
    ]);
  });

  test('a blade that turns none of them lists each', () => {
    const { hollows, ownBlade } = adviseBlade(arcs, edgesAsCut(arcs), { width: 12.7 });
    expect(ownBlade?.tooTight).toEqual(hollows);
  });

  test('the order of cuts has one step of relief cuts for all of them', () => {
    const steps = cutSteps(arcs, adviseSawing(arcs, { width: 12.7 }), lengthFormat(arcs.rule));
    const relief = steps.filter(([kind]) => kind === 'relief cuts').map(([, words]) => words);
    expect(relief).toHaveLength(1);
    expect(relief[0]?.match(/station \d+" \(\w+\)/g)).toEqual([
      'station 3" (lower)',
      'station 9" (lower)',
      'station 6" (upper)',
    ]);
  });

  test('a slightly easier bend is left out', () => {
    const eased = part(
      '  a:\n    - from: [0, 0]\n    - arc: [2, 0]\n      radius: 2\n    - line: [4, 0]\n    - arc: [6, 0]\n      radius: 2.01\n',
    );
    const { rounds } = adviseBlade(eased, edgesAsCut(eased), {});
    expect(rounds.map(({ at }) => Number((at.x / INCH).toFixed(6)))).toEqual([1]);
  });

  test('a bend too sharp for samples along its piece is found', () => {
    // A cubic all but turning back on itself, by the places of its own formula.
    const [p0, p1, p2, p3] = [point(0, 0), point(100, 80), point(2, 84), point(100, 0)];
    const at = (u: number, axis: 'x' | 'y'): number =>
      (1 - u) ** 3 * p0[axis] +
      3 * (1 - u) ** 2 * u * p1[axis] +
      3 * (1 - u) * u ** 2 * p2[axis] +
      u ** 3 * p3[axis];
    const looks = Array.from({ length: 20_001 }, (_, i) => point(at(i / 20_000, 'x'), at(i / 20_000, 'y')));
    const around = looks.slice(1, -1).map((b, i) => {
      const [a, c] = [looks[i]!, looks[i + 2]!];
      const twice = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
      return (distance(a, b) * distance(b, c) * distance(a, c)) / (2 * twice);
    });
    const edge = {
      name: 'a',
      woodIsAbove: false,
      pieces: [{ type: 'cubic', controls: [p0, p1, p2, p3] }],
    } as const;
    const bends = tightestBends([edge], 'round', 0);
    expect(bends).toHaveLength(1);
    expect(bends[0]!.radius / Math.min(...around)).toBeCloseTo(1, 3);
  });

  test('a batten is tightest at its nail, once for the two pieces that meet there', () => {
    const bent = part('  a:\n    - from: [0, 0]\n    - batten: [12, 0]\n      through: [6, 1]\n');
    expect(adviseBlade(bent, edgesAsCut(bent), {}).rounds.map(({ at }) => at.x)).toEqual([
      expect.closeTo(6 * INCH, 6),
    ]);
    // Three nails as on a bow: as tight over the outer two.
    const three = part(
      '  a:\n    - from: [0, 0]\n    - batten: [12, 0]\n      through: [[3, 1], [6, 1], [9, 1]]\n',
    );
    const { rounds } = adviseBlade(three, edgesAsCut(three), {});
    expect(rounds.map(({ at }) => Number((at.x / INCH).toFixed(4)))).toEqual([3, 9]);
  });
});

describe('describeBlade of shoulders', () => {
  const shouldered = (right: string) =>
    part(`
  lower:
    - from: [0, 0]
    - line: [14, 0]
  top:
    - from: [0, 3]
    - line: [1, 3]
    - line: [1, 4]
${right}
`);

  test('all shoulders share one line', () => {
    const linesOf = (right: string): number => {
      const of = shouldered(right);
      return describeBlade(adviseBlade(of, edgesAsCut(of), {}), lengthFormat(of.rule)).length;
    };
    // Tightest hollow, tightest round and widest blade have a line each.
    expect(linesOf('    - line: [14, 4]')).toBe(4);
    expect(linesOf('    - line: [13, 4]\n    - line: [13, 3]\n    - line: [14, 3]')).toBe(4);
  });
});
