import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { union } from '../../../src/curves/geometry/bounds.ts';
import { FLATTEN_MM } from '../../../src/curves/geometry/flatten.ts';
import { halfOf } from '../../../src/part/derived/half-pattern.ts';
import type { Part } from '../../../src/part/part.ts';
import type { Layout, Sheet } from '../../../src/tiling/layout.ts';
import { landscapeMargins } from '../../../src/tiling/paper/margins.ts';
import { POINTS_PER_MM } from '../../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { Fault } from '../../../src/units/fault.ts';
import { partOf } from '../../part/jobs.ts';
import { backLeg, block, gentlePart } from '../parts.ts';

const layOn = (part: ReturnType<typeof block>, paper: string, turn: 'auto' | number = 'auto', overlap = 15) =>
  layOut(part, { paper: parsePaper(paper), margin: 12.7, overlap, turn });

/** Half of a garden arch's top rail, 3 m over all and 90 mm wide. */
const halfRail = (apex: number): Part =>
  halfOf(
    partOf(`part: Arch rail
units: mm
edges:
  lower:
    - from: [0, 0]
    - batten: [3000, 0]
      apex: [1500, ${apex}]
  upper:
    - from: [0, 90]
    - batten: [3000, 90]
      apex: [1500, ${apex + 90}]
`),
  );

const areaOf = ({ size }: Sheet): number => size.width * size.height;

/** ISO 32000-1, Annex C.2: a page is 14,400 units at most. */
const MOST_UNITS = 14_400;

const longest = ({ sheets }: Layout): number =>
  Math.max(...sheets.flatMap(({ size }) => [size.width, size.height])) * POINTS_PER_MM;

describe('a roll', () => {
  test.each([
    ['roll:24in', 609.6],
    ['roll:610mm', 610],
    ['Roll: 91.4 cm', 914],
  ])('%s is %d mm wide', (text, width) => {
    expect(parsePaper(text)).toMatchObject({ width: expect.closeTo(width, 9), roll: true });
  });

  test.each([
    ['roll:24', 'paper.no-unit'],
    ['roll:9mm', 'paper.too-small'],
    ['roll:300in', 'paper.too-large'],
    ['roll:', 'paper.unknown'],
    ['roll:-24in', 'paper.unknown'],
  ])('%s is refused: %s', (text, code) => {
    expect(() => parsePaper(text)).toThrow(expect.objectContaining({ code }));
  });

  test('holds a leg on one page as long as the leg and the roll’s own width', () => {
    const { sheets, orientation } = layOn(backLeg(), 'roll:24in');
    expect(sheets).toHaveLength(1);
    expect(orientation).toBe('lying');
    expect(sheets[0].size.height).toBeCloseTo(609.6, 9);
    // 34 in and a saw line of 1/16 in at both ends, a pad of 1 mm and the margins of 12.7 mm; lines are known to CHORD_MM.
    expect(sheets[0].size.width).toBeCloseTo(34 * 25.4 + 2 * (25.4 / 16 + FLATTEN_MM + 1 + 12.7), 6);
  });

  test('of two ways that take one page it takes the one with less paper', () => {
    expect(layOn(block(300, 90), 'roll:24in').sheets[0].size).toMatchObject({
      width: expect.closeTo(609.6, 9),
    });
    expect(layOn(block(90, 300), 'roll:24in').sheets[0].size).toMatchObject({
      height: expect.closeTo(609.6, 9),
    });
  });

  test('auto turns half of a 3 m arch rail, so that one page holds what takes two as it lies', () => {
    const rail = halfRail(650);
    expect(layOn(rail, 'roll:24in', 0).sheets).toHaveLength(2);
    const turned = layOn(rail, 'roll:24in');
    expect(turned.sheets).toHaveLength(1);
    expect(layOn(rail, 'roll:24in', turned.turnDeg)).toEqual(turned);
    // No other whole turn makes that one page shorter.
    for (let turn = -43; turn <= 45; turn += 4) {
      const { sheets } = layOn(rail, 'roll:24in', turn);
      if (sheets.length === 1) expect(areaOf(sheets[0])).toBeGreaterThan(areaOf(turned.sheets[0]) - 1e-6);
    }
  });

  test('auto leaves a part as it lies where no turn saves a page, though one would save paper', () => {
    const brace = partOf(`part: Arch brace
units: mm
edges:
  lower:
    - from: [0, 0]
    - line: [380, 380]
  upper:
    - from: [0, 60]
    - line: [380, 440]
`);
    const [straight, turned] = [layOn(brace, 'roll:24in'), layOn(brace, 'roll:24in', -45)];
    expect([straight.turnDeg, straight.sheets.length, turned.sheets.length]).toEqual([0, 1, 1]);
    expect(areaOf(turned.sheets[0])).toBeLessThan(areaOf(straight.sheets[0]));
  });

  test('a part longer than a PDF page takes equal pages in one row, joined by register marks', () => {
    const layout = layOn(block(12_000, 300), 'roll:24in');
    expect(layout.sheets.map(({ name }) => name)).toEqual(['1A', '1B', '1C']);
    expect(longest(layout)).toBeLessThanOrEqual(MOST_UNITS);
    const widths = layout.sheets.map(({ size }) => size.width);
    expect(Math.max(...widths) - Math.min(...widths)).toBeLessThan(1e-9);
    expect(layout.sheets[1]!.marks).toHaveLength(4);
  });

  test('property: no page is longer than a PDF page may be, and all of the part is on the pages', () => {
    fc.assert(
      fc.property(
        gentlePart(),
        fc.constantFrom('roll:300mm', 'roll:24in', 'roll:42in'),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (part, paper, turn) => {
          const layout = layOn(part, paper, turn);
          expect(longest(layout)).toBeLessThanOrEqual(MOST_UNITS);
          const shown = union(
            layout.sheets.map(({ window, toSheet }) => {
              const back = invert(toSheet);
              const corners = [window.left, window.right].flatMap((x) =>
                [window.bottom, window.top].map((y) => transformPoint(back, { x, y })),
              );
              const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
              return {
                left: Math.min(...xs),
                right: Math.max(...xs),
                bottom: Math.min(...ys),
                top: Math.max(...ys),
              };
            }),
          );
          expect(shown.left).toBeLessThan(part.bounds.left);
          expect(shown.right).toBeGreaterThan(part.bounds.right);
          expect(shown.bottom).toBeLessThan(part.bounds.bottom);
          expect(shown.top).toBeGreaterThan(part.bounds.top);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('too long for any number of pages is refused, not tried', () => {
    expect(() => layOn(block(1_000_000, 300), 'roll:24in', 0, 4000)).toThrow(Fault);
  });
});

describe('margins a side', () => {
  const sides = { top: 6, right: 8, bottom: 20, left: 10 };

  test('are those of the upright paper', () => {
    const [sheet] = layOut(block(100, 150), {
      paper: parsePaper('a4'),
      margin: sides,
      overlap: 15,
      turn: 'auto',
    }).sheets;
    expect(sheet.window).toEqual({
      left: expect.closeTo(10, 9),
      right: expect.closeTo(202, 9),
      bottom: expect.closeTo(20, 9),
      top: expect.closeTo(291, 9),
    });
  });

  test('on a lying page the wider of each pair counts on both sides: it may be turned either way', () => {
    expect(landscapeMargins(sides)).toEqual({ top: 10, bottom: 10, left: 20, right: 20 });
    const { sheets } = layOut(backLeg(), {
      paper: parsePaper('a4'),
      margin: sides,
      overlap: 15,
      turn: 0,
    });
    expect(sheets[0].window).toEqual({
      left: expect.closeTo(20, 9),
      right: expect.closeTo(277, 9),
      bottom: expect.closeTo(10, 9),
      top: expect.closeTo(200, 9),
    });
  });

  test('one that is no length is refused', () => {
    const margin = { ...sides, left: -1 };
    expect(() => layOut(backLeg(), { paper: parsePaper('a4'), margin, overlap: 15, turn: 0 })).toThrow(
      /a margin is -1 mm/,
    );
  });
});
