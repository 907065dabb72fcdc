import { describe, expect, test } from 'vitest';
import {
  type Affine,
  IDENTITY,
  rotate,
  transformPoint,
  translate,
} from '../../src/curves/geometry/affine.ts';
import {
  angleFrom,
  cross,
  distance,
  lerp,
  type Point,
  point,
  subtract,
} from '../../src/curves/geometry/point.ts';
import { toleranceText } from '../../src/export/drawing/dimensions.ts';
import {
  expectedDifference,
  expectedError,
  expectedGap,
  SEAM_ERROR_MM,
} from '../../src/tiling/expected-error.ts';
import type { Layout } from '../../src/tiling/layout.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../src/tiling/tile.ts';
import { lastOf } from '../../src/units/checked.ts';
import { defaultRule } from '../../src/units/rule.ts';
import { Random } from '../fuzz/random.ts';
import { samplePart } from '../part/jobs.ts';
import { backLeg, block } from './parts.ts';

const options = { paper: parsePaper('letter'), margin: 12.7, overlap: 15, turn: 0 } as const;
const [start, end] = [point(0, 10), point(34 * 25.4, 10)];

/** The register marks of each seam. */
function seamsOf(layout: Layout): [Point, Point][] {
  const marks = new Map<string, Point[]>();
  for (const { sheets, at } of new Set(layout.sheets.flatMap((sheet) => sheet.marks)))
    marks.set(sheets.join(), [...(marks.get(sheets.join()) ?? []), at]);
  return [...marks.values()] as [Point, Point][];
}

describe('what a measure may be off', () => {
  const leg = layOut(backLeg(), options);

  test('grows with the length by what bars and damp leave, and by what the seams slide and turn', () => {
    // By hand: one row of letter paper; marks 170.5 mm apart are 95.25 mm above the sheet's lower edge, 85.25 mm the way
    // from its middle. The line is 863.6 mm long from 1A to 1D, each seam's turn is 2 · 0.3 / apart.
    const levers = seamsOf(leg).map(([a, b]) => ((2 * 0.3) / distance(a, b)) * ((a.y + b.y) / 2 - 10));
    const seams = Math.sqrt(levers.reduce((sum, lever) => sum + 0.3 ** 2 + lever ** 2, 0));
    expect(levers).toHaveLength(3);
    expect(expectedError(leg, start, end)).toBeCloseTo(863.6 * 0.003 + seams, 9);
    // The same way back, and within one sheet no seam: 100 · 0.003.
    expect(expectedError(leg, end, start)).toBeCloseTo(863.6 * 0.003 + seams, 9);
    expect(expectedError(leg, point(20, 10), point(120, 10))).toBeCloseTo(0.3, 9);
  });

  test('is less where the printer was measured on its sheet', () => {
    const measured = layOut(backLeg(), { ...options, printer: { across: 1, down: 1 } });
    // 0.2 mm in 200 instead of 100.
    expect(expectedError(leg, start, end) - expectedError(measured, start, end)).toBeCloseTo(0.8636, 9);
  });

  test('on one sheet has no seams in it', () => {
    expect(expectedError(layOut(block(150, 100), options), point(0, 0), point(150, 100))).toBeCloseTo(
      Math.hypot(150, 100) * 0.003,
      9,
    );
  });
});

describe('register marks', () => {
  test('are as far apart as letter paper lets them be', () => {
    // 279.4 or 215.9 mm less two margins of 12.7 mm, and 10 mm to the middle of a mark at either end.
    for (const [a, b] of seamsOf(layOut(samplePart('hall-bench-leg.yaml'), { ...options, turn: 'auto' })))
      expect(distance(a, b)).toBeGreaterThan(165);
  });
});

describe('a pattern taped a thousand times, each mark off by a normal error', () => {
  const layout = layOut(samplePart('hall-bench-leg.yaml'), { ...options, turn: 'auto' });
  // 99% of normal errors are within 2.576 sigma; the middle of two marks has 1/√2 of the error of one.
  const sigma = (SEAM_ERROR_MM / 2.576) * Math.SQRT2;
  const random = new Random(7);
  const normal = (): number =>
    sigma * Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
  const [front] = layout.checks;
  const [one, other] = layout.checks.filter(({ label }) => label.startsWith('cross'));

  /** Each sheet in turn laid with both its marks where they seem to meet. */
  function tape(): (at: Point) => Point {
    const ways: Affine[] = [IDENTITY];
    for (const [a, b] of seamsOf(layout)) {
      const [from, to] = [a, b].map((mark) => {
        const { x, y } = transformPoint(lastOf(ways), mark);
        return point(x + normal(), y + normal());
      }) as [Point, Point];
      const turn = rotate(((angleFrom(from, to) - angleFrom(a, b)) * 180) / Math.PI);
      const [was, is] = [transformPoint(turn, lerp(a, b, 1 / 2)), lerp(from, to, 1 / 2)];
      ways.push(translate(turn, is.x - was.x, is.y - was.y));
    }
    return (at) => {
      const shown = layout.sheets.findIndex(
        ({ cell, toSheet }) => transformPoint(toSheet, at).x <= cell.right + 1e-9,
      );
      return transformPoint(ways[shown === -1 ? ways.length - 1 : shown]!, at);
    };
  }

  const taped = Array.from({ length: 1000 }, tape);
  const within99 = (measure: (moved: (at: Point) => Point) => number): number =>
    taped
      .map(measure)
      .map(Math.abs)
      .sort((a, b) => a - b)[990]!;

  test('has diagonals that differ no more than stated', () => {
    const differing = within99(
      (to) => distance(to(one!.from), to(one!.to)) - distance(to(other!.from), to(other!.to)),
    );
    const stated = expectedDifference(layout, one!, other!);
    expect(differing).toBeGreaterThan(stated * 0.8);
    expect(differing).toBeLessThan(stated * 1.2);
  });

  test('has no wider gap at a straightedge than stated', () => {
    const { from, to } = front!;
    const gap = within99((moved) => {
      const [a, b] = [moved(from), moved(to)];
      const along = Array.from({ length: 200 }, (_, i) => moved(lerp(from, to, i / 199)));
      return Math.max(
        ...along.map((at) => Math.abs(cross(subtract(b, a), subtract(at, a))) / distance(a, b)),
      );
    });
    const stated = expectedGap(layout, from, to);
    expect(gap).toBeGreaterThan(stated * 0.8);
    expect(gap).toBeLessThan(stated * 1.2);
  });
});

test.each([
  ['in', 5.7, '± 1⁄4″'],
  ['in', 0.1, '± 1⁄32″'],
  ['in', 0, '± 1⁄32″'],
  ['in', 25.4 / 16, '± 1⁄16″'],
  ['mm', 2.2, '± 2.5 mm'],
  ['mm', 2, '± 2 mm'],
] as const)('on a rule in %s %d mm is rounded up to %s', (unit, mm, shown) => {
  expect(toleranceText(mm, defaultRule(unit))).toBe(shown);
});
