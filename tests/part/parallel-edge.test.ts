import { EndType, inflatePathsD, JoinType } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pathEnds } from '../../src/curves/geometry/evaluate.ts';
import type { ArcSegment } from '../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../src/curves/geometry/tolerance.ts';
import { gripsOf } from '../../src/part/edit/draggable-points.ts';
import { gripMoved } from '../../src/part/edit/snap-to-rule.ts';
import type { Part, PartEdge } from '../../src/part/part.ts';
import { largestGap, spread, worstDistance } from '../curves/measure.ts';
import { faultsOf, partOf } from './jobs.ts';

const job = (steps: string, by: number | string, more = ''): string =>
  `part: Arch\nunits: mm\nstock: {thickness: 40}\n${more}edges:\n  inside:\n${steps}  outside:\n    parallel: inside\n    by: ${by}\n`;

const edgesOf = (part: Part): [inside: PartEdge, outside: PartEdge] => part.edges as [PartEdge, PartEdge];
const tips = ({ pieces }: PartEdge): readonly [Point, Point] => pathEnds(pieces);
const ends = (left: string, right = left): string => `ends: {left: ${left}, right: ${right}}\n`;

/** Radius of a chord of 1900 mm with a rise of 620 mm: Euclid III.35, (c²/4 + h²) / 2h. */
const RADIUS = (950 ** 2 + 620 ** 2) / (2 * 620);
const HALF_ANGLE = Math.asin(950 / RADIUS);
const ARCH = '    - from: [0, 0]\n    - arc: [1900, 0]\n      rise: 620\n';

const BATTEN =
  '    - from: [0, 30]\n    - line: [150, 30]\n    - batten: [700, 60]\n      apex: [430, 95]\n      ends: [held, free]\n';

describe('a parallel of an arc', () => {
  test.each([45, -45, 300])('at %d mm is the arc about the same center', (by) => {
    const [, outside] = edgesOf(partOf(job(ARCH, by)));
    const [piece] = outside.pieces as [ArcSegment];
    expect(outside.pieces).toHaveLength(1);
    expect(piece.radius).toBeCloseTo(RADIUS + by, 9);
    expect(piece.centre.x).toBeCloseTo(950, 9);
    expect(piece.centre.y).toBeCloseTo(620 - RADIUS, 9);
    expect(outside.length).toBeCloseTo(2 * HALF_ANGLE * (RADIUS + by), 6);
  });

  test('ends square to the curve, unless the job says otherwise', () => {
    const part = partOf(job(ARCH, 45));
    const [from, to] = tips(edgesOf(part)[1]);
    expect(from.x).toBeCloseTo(-45 * Math.sin(HALF_ANGLE), 9);
    expect(from.y).toBeCloseTo(45 * Math.cos(HALF_ANGLE), 9);
    expect(to.x).toBeCloseTo(1900 + 45 * Math.sin(HALF_ANGLE), 9);
    expect(part.ends?.map(({ angles }) => angles.miter)).toEqual([
      expect.closeTo(HALF_ANGLE, 9),
      expect.closeTo(-HALF_ANGLE, 9),
    ]);
    expect(partOf(job(ARCH, 45, ends('square to curve'))).shape).toEqual(part.shape);
  });

  test('is carried on as the same arc to a level cut through the ends of the other edge', () => {
    const part = partOf(job(ARCH, 45, ends('level')));
    const [from, to] = tips(edgesOf(part)[1]);
    const half = Math.sqrt((RADIUS + 45) ** 2 - (RADIUS - 620) ** 2);
    expect([from.x, from.y]).toEqual([expect.closeTo(950 - half, 6), expect.closeTo(0, 6)]);
    expect([to.x, to.y]).toEqual([expect.closeTo(950 + half, 6), expect.closeTo(0, 6)]);
    expect(part.ends?.map(({ face }) => face.map(({ y }) => y))).toEqual([
      [expect.closeTo(0, 6), expect.closeTo(0, 6)],
      [expect.closeTo(0, 6), expect.closeTo(0, 6)],
    ]);
  });

  test('is cut short by an end square to the reference line', () => {
    const { ends: cut } = partOf(job(ARCH, 45, ends('square')));
    const height = Math.sqrt((RADIUS + 45) ** 2 - 950 ** 2) + 620 - RADIUS;
    expect(cut?.[0].face.map(({ x, y }) => [x, y])).toEqual([
      [expect.closeTo(0, 6), expect.closeTo(0, 6)],
      [expect.closeTo(0, 6), expect.closeTo(height, 6)],
    ]);
  });

  test('of half a circle has ends square to the curve and level at once', () => {
    const half = ARCH.replace('rise: 620', 'rise: 950');
    for (const how of ['level', 'square to curve']) {
      const part = partOf(job(half, 45, ends(how)));
      expect(edgesOf(part)[1].length).toBeCloseTo(Math.PI * 995, 6);
    }
  });

  test('keeps its width and area: a ring’s sector', () => {
    const { shape } = partOf(job(ARCH, 45));
    expect(shape.type === 'closed' && shape.leastWidth.width).toBeCloseTo(45, 3);
  });
});

describe('a parallel of straight lines', () => {
  // By hand: 100 mm along, then up at 45 degrees; at 10 mm a corner moves by 10·tan 22.5° along the line.
  const steps = '    - from: [0, 0]\n    - line: [100, 0]\n    - line: [200, 100]\n';
  const shift = 10 * Math.tan(Math.PI / 8);
  test('is shortened inside a corner', () => {
    const [, outside] = edgesOf(partOf(job(steps, 10)));
    expect(outside.runs.map(({ kind, to }) => [kind, to.x, to.y])).toEqual([
      ['line', expect.closeTo(100 - shift, 9), expect.closeTo(10, 9)],
      ['line', expect.closeTo(200 - 10 * Math.SQRT1_2, 9), expect.closeTo(100 + 10 * Math.SQRT1_2, 9)],
    ]);
  });

  test('is carried on round the outside of a corner', () => {
    const [, outside] = edgesOf(partOf(job(steps, -10)));
    const corner = outside.pieces.some(
      (piece) => piece.type === 'line' && distance(piece.to, { x: 100 + shift, y: -10 }) < 1e-6,
    );
    expect(corner).toBe(true);
    expect(largestGap(outside.pieces)).toBeLessThan(1e-6);
  });
});

describe('a parallel of a chain with a batten', () => {
  test.each([60, -20])('at %d mm is where an independent library has it', (by) => {
    const [inside, outside] = edgesOf(partOf(job(BATTEN, by)));
    // Clipper2 (Johnson, Vatti's clipping) moves the sides of a polyline: here of places half a mm apart on average.
    const chain = spread(inside.pieces, Math.ceil((2 * inside.length) / inside.pieces.length));
    const around = inflatePathsD(
      [chain.map(({ x, y }) => ({ x, y }))],
      Math.abs(by),
      JoinType.Round,
      EndType.Butt,
      2,
      6,
      0.0005,
    );
    const polygon = around.flatMap((ring) =>
      ring.map(({ x, y }, i) => ({ a: { x, y }, b: ring[(i + 1) % ring.length]! })),
    );
    for (const p of spread(outside.path, 3)) {
      const nearest = Math.min(...polygon.map(({ a, b }) => distanceToSide(p, a, b)));
      expect(nearest).toBeLessThan(FIT_MM + 0.003);
    }
  });

  test('property: every place of it is at the distance', () => {
    const distances = fc.double({ min: -25, max: 80, noNaN: true }).filter((by) => Math.abs(by) > 1);
    fc.assert(
      fc.property(distances, (by) => {
        const [inside, outside] = edgesOf(partOf(job(BATTEN, by.toFixed(3))));
        for (const p of spread(outside.pieces, 1))
          expect(Math.abs(worstDistance([p], inside.pieces) - Math.abs(Number(by.toFixed(3))))).toBeLessThan(
            FIT_MM,
          );
      }),
      { numRuns: 4, endOnFailure: true },
    );
  });

  test('is carried on straight along its end to a cut that leans out', () => {
    const [, outside] = edgesOf(partOf(job(BATTEN, 40, ends('square to curve', '{miter: -40}'))));
    const last = outside.runs.at(-1)!;
    expect(last.kind).toBe('line');
    const { x, y } = last.to;
    // The cut passes the end of the other edge, 40 degrees off square.
    expect(x - Math.tan((40 * Math.PI) / 180) * y).toBeCloseTo(700 - Math.tan((40 * Math.PI) / 180) * 60, 6);
  });
});

function distanceToSide(p: Point, a: Point, b: Point): number {
  const length = distance(a, b) ** 2;
  const u = length === 0 ? 0 : ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length;
  const share = Math.min(1, Math.max(0, u));
  return distance(p, { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) });
}

describe('the grip of a parallel', () => {
  const part = partOf(job(ARCH, 45));
  const grip = gripsOf(part).find(({ what }) => what === 'parallel')!;
  const movedBy = (dx: number, dy: number) => gripMoved(grip, { x: grip.at.x + dx, y: grip.at.y + dy }, part);

  test('is the only one of that edge, and sets its distance', () => {
    expect(gripsOf(part).filter(({ edge }) => edge === 'outside')).toEqual([grip]);
    expect(grip.at).toEqual({ x: expect.closeTo(950, 6), y: expect.closeTo(665, 6) });
    expect(movedBy(0, 12)).toEqual([{ key: 'edges.outside.by', typed: '57' }]);
    expect(movedBy(12, 0)).toEqual([]);
  });

  test('does not cross the other edge', () => {
    expect(movedBy(0, -200)).toEqual([{ key: 'edges.outside.by', typed: '0.5' }]);
    const below = partOf(job(ARCH, -45));
    const other = gripsOf(below).find(({ what }) => what === 'parallel')!;
    expect(gripMoved(other, { x: other.at.x, y: other.at.y + 300 }, below)[0]?.typed).toBe('-0.5');
    expect(gripMoved(other, { x: other.at.x, y: other.at.y - 5 }, below)[0]?.typed).toBe('-50');
  });
});

describe('mistakes', () => {
  test('a parallel that folds is refused at its distance, with the place', () => {
    const [fault] = faultsOf(job(ARCH, -1100));
    expect(fault).toMatchObject({ code: 'parallel.folds', key: 'edges.outside.by' });
    expect(fault?.message).toMatch(/station/);
  });

  test.each([
    [
      'a name that is no edge',
      job(ARCH, 45).replace('parallel: inside', 'parallel: insde'),
      'job.unknown-word',
    ],
    ['its own name', job(ARCH, 45).replace('parallel: inside', 'parallel: outside'), 'job.unknown-word'],
    ['no distance', job(ARCH, 45).replace('    by: 45\n', ''), 'job.missing'],
    ['the distance 0', job(ARCH, 0), 'job.parallel'],
    ['no other edge', 'part: A\nunits: mm\nedges:\n  a:\n    parallel: b\n    by: 4\n', 'job.parallel'],
    [
      'two parallels',
      'part: A\nunits: mm\nedges:\n  a: {parallel: b, by: 4}\n  b: {parallel: a, by: 4}\n',
      'job.parallel',
    ],
    [
      'a level end without a parallel',
      job(ARCH, 1, ends('level')).replace(
        /outside:[\s\S]*/,
        'outside:\n    - from: [0, -40]\n    - line: [1900, -40]\n',
      ),
      'ends.needs-parallel',
    ],
    [
      'a level end of a level curve',
      job('    - from: [0, 0]\n    - line: [500, 0]\n', 45, ends('level')),
      'ends.level',
    ],
    [
      'a cut out of reach',
      job('    - from: [0, 0]\n    - line: [700, -200]\n', -20, ends('square', '{miter: 75}')),
      'parallel.no-reach',
    ],
  ])('%s', (_, text, code) => {
    expect(faultsOf(text).map((fault) => fault.code)).toContain(code);
  });
});
