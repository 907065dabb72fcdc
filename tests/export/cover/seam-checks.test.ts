import { describe, expect, test } from 'vitest';
import {
  type Affine,
  IDENTITY,
  rotate,
  transformPoint,
  translate,
} from '../../../src/curves/geometry/affine.ts';
import {
  angleFrom,
  cross,
  distance,
  lerp,
  type Point,
  point,
  subtract,
} from '../../../src/curves/geometry/point.ts';
import { seamChecks } from '../../../src/export/cover/seam-checks.ts';
import { dimensionsOf, roundedTolerance } from '../../../src/export/drawing/dimensions.ts';
import {
  expectedDifference,
  expectedError,
  expectedGap,
  expectedStep,
  SEAM_ERROR_MM,
} from '../../../src/tiling/expected-error.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { sheetShowing, tapedSeams } from '../../../src/tiling/taped-seams.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { Random } from '../../fuzz/random.ts';
import { samplePart } from '../../part/jobs.ts';
import { archTop } from '../../tiling/parts.ts';

const options = { paper: parsePaper('letter'), margin: 12.7, overlap: 15, turn: 'auto' } as const;

describe('every seam', () => {
  test.each([
    ['one row', samplePart('hall-bench-leg.yaml')],
    ['two rows', archTop()],
    ['two columns', samplePart('wall-shelf-bracket.yaml')],
  ])('of %s has a distance between places on its two sheets', (_, part) => {
    const layout = layOut(part, options);
    const checks = seamChecks(part, layout, dimensionsOf(part).stations);
    const seams = tapedSeams(layout);
    expect(checks.map(({ sheets }) => sheets.join())).toEqual(seams.map(({ sheets }) => sheets.join()));
    for (const { sheets, from, to, length } of checks) {
      expect([from, to].map((at) => sheetShowing(layout, at).name).sort()).toEqual([...sheets].sort());
      expect(length).toBeCloseTo(distance(from, to), 9);
    }
  });
});

describe('the leg taped a thousand times, each register mark off by a normal error', () => {
  const part = samplePart('hall-bench-leg.yaml');
  const layout = layOut(part, options);
  const { rule } = part;
  const seams = tapedSeams(layout);
  const checks = seamChecks(part, layout, dimensionsOf(part).stations);
  const [front] = layout.checks;
  const [one, other] = layout.checks.filter(({ label }) => label.startsWith('cross'));
  // 99% of normal errors are within 2.576 sigma; the middle of two marks has 1/√2 of the error of one.
  const sigma = (SEAM_ERROR_MM / 2.576) * Math.SQRT2;
  const random = new Random(11);
  const normal = (): number =>
    sigma * Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());

  /** Each sheet laid on the one before; the sheets from seam `bad` on are moved as a whole by `slip`. */
  function tape(bad = -1, slip = point(0, 0), turned = 0): (at: Point) => Point {
    const ways: Affine[] = [IDENTITY];
    for (const [i, { middle, marksApart }] of seams.entries()) {
      const marks = [-1, 1].map((way) => point(middle.x, middle.y + (way * marksApart) / 2));
      const [a, b] = marks as [Point, Point];
      const [from, to] = marks.map((mark, m) => {
        const { x, y } = transformPoint(ways[i]!, mark);
        const by = i === bad ? point(slip.x + (m === 0 ? -turned : turned), slip.y) : point(0, 0);
        return point(x + normal() + by.x, y + normal() + by.y);
      }) as [Point, Point];
      const turn = rotate(((angleFrom(from, to) - angleFrom(a, b)) * 180) / Math.PI);
      const [was, is] = [transformPoint(turn, lerp(a, b, 1 / 2)), lerp(from, to, 1 / 2)];
      ways.push(translate(turn, is.x - was.x, is.y - was.y));
    }
    return (at) => transformPoint(ways[layout.sheets.indexOf(sheetShowing(layout, at))]!, at);
  }

  const gap = (moved: (at: Point) => Point): number => {
    const { from, to } = front!;
    const [a, b] = [moved(from), moved(to)];
    const along = Array.from({ length: 120 }, (_, i) => moved(lerp(from, to, i / 119)));
    return Math.max(...along.map((at) => Math.abs(cross(subtract(b, a), subtract(at, a))) / distance(a, b)));
  };
  /** At the seams, between places 1 mm to either side of each. */
  const step = (moved: (at: Point) => Point): number => {
    const y = front!.from.y;
    return Math.max(
      ...seams.map(({ middle: { x } }) => Math.abs(moved(point(x + 1, y)).y - moved(point(x - 1, y)).y)),
    );
  };
  const difference = (moved: (at: Point) => Point): number =>
    Math.abs(distance(moved(one!.from), moved(one!.to)) - distance(moved(other!.from), moved(other!.to)));
  const across = (moved: (at: Point) => Point, i: number): number =>
    Math.abs(distance(moved(checks[i]!.from), moved(checks[i]!.to)) - checks[i]!.length);

  const seamLimit = checks.map(({ from, to }) => roundedTolerance(expectedError(layout, from, to), rule));
  const differenceLimit = roundedTolerance(expectedDifference(layout, one!, other!), rule);
  const gapLimit = roundedTolerance(expectedGap(layout, front!.from, front!.to), rule);
  const stepLimit = roundedTolerance(expectedStep(layout, front!.from, front!.to), rule);
  const share = (
    measure: (moved: (at: Point) => Point) => boolean,
    bad?: number,
    slip?: Point,
    turned?: number,
  ): number =>
    Array.from({ length: 1000 }, () => measure(tape(bad, slip, turned))).filter(Boolean).length / 1000;

  test('99% of honest work keeps every printed figure', () => {
    for (const i of checks.keys())
      expect(share((moved) => across(moved, i) <= seamLimit[i]!)).toBeGreaterThan(0.99);
    expect(share((moved) => difference(moved) <= differenceLimit)).toBeGreaterThan(0.98);
    expect(share((moved) => gap(moved) <= gapLimit)).toBeGreaterThan(0.98);
    expect(share((moved) => step(moved) <= stepLimit)).toBeGreaterThan(0.98);
  });

  test('a seam that is opened by 1 mm shows in its own distance, and in no other', () => {
    const caught = share((moved) => across(moved, 1) > seamLimit[1]!, 1, point(1, 0));
    expect(caught).toBeGreaterThan(0.9);
    expect(share((moved) => across(moved, 0) > seamLimit[0]!, 1, point(1, 0))).toBeLessThan(0.01);
  });

  test('a sideways slip of 2 mm shows as a step at the straightedge, and seldom in the other figures', () => {
    const caughtBy = (measure: (moved: (at: Point) => Point) => boolean) => share(measure, 1, point(0, 2));
    expect(caughtBy((moved) => step(moved) > stepLimit)).toBeGreaterThan(0.99);
    // A step of 2 mm halfway along is a gap of 1 mm on either side, and little of it is along a diagonal.
    expect(caughtBy((moved) => gap(moved) > gapLimit)).toBeLessThan(0.5);
    expect(caughtBy((moved) => difference(moved) > differenceLimit)).toBeLessThan(0.6);
    expect(caughtBy((moved) => across(moved, 1) > seamLimit[1]!)).toBeLessThan(0.05);
  });

  test('a seam that is out of square by 2 mm from mark to mark shows at the straightedge from end to end', () => {
    const caughtBy = (measure: (moved: (at: Point) => Point) => boolean) => share(measure, 1, point(0, 0), 1);
    expect(caughtBy((moved) => gap(moved) > gapLimit)).toBeGreaterThan(0.9);
  });
});
