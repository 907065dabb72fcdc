import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { inflate } from '../../../src/curves/geometry/bounds.ts';
import { evaluate } from '../../../src/curves/geometry/evaluate.ts';
import { flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import type { Point } from '../../../src/curves/geometry/point.ts';
import type { Part } from '../../../src/part/part.ts';
import { trimmedCell, windowOfCell } from '../../../src/tiling/grid/grid.ts';
import { linesToCut } from '../../../src/tiling/grid/lines-to-tile.ts';
import type { Layout, Sheet } from '../../../src/tiling/layout.ts';
import { marginSides } from '../../../src/tiling/paper/margins.ts';
import { PAPERS } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut, MIN_OVERLAP_MM } from '../../../src/tiling/tile.ts';
import { gentlePart } from '../parts.ts';
import { holds } from '../shows.ts';

describe('property: whatever the part, paper and turn', () => {
  const anyLayout = fc.record({
    part: gentlePart(),
    paper: fc.constantFrom(...PAPERS),
    margin: fc.double({ min: 0, max: 25, noNaN: true }),
    overlap: fc.double({ min: MIN_OVERLAP_MM, max: 30, noNaN: true }),
    turn: fc.oneof(fc.constant('auto' as const), fc.double({ min: -360, max: 360, noNaN: true })),
  });
  const check = (judge: (part: Part, layout: Layout) => void): void =>
    fc.assert(
      fc.property(anyLayout, ({ part, ...given }) => judge(part, layOut(part, given))),
      { numRuns: 60 },
    );

  test('every point of the line lies in the cell of a printed sheet', () => {
    check((part, { sheets }) => {
      for (const segment of linesToCut(part))
        for (let i = 0; i <= 60; i++) {
          const at = evaluate(segment, i / 60);
          expect(sheets.some((sheet) => holds(sheet, 'cell', at))).toBe(true);
        }
    });
  });

  test('the printed sheets hang together by their seams', () => {
    check((_, { sheets }) => {
      const byName = new Map(sheets.map((sheet) => [sheet.name, sheet]));
      const reached = new Set<string>();
      const queue = [sheets[0].name];
      for (let name = queue.pop(); name; name = queue.pop()) {
        if (reached.has(name)) continue;
        reached.add(name);
        queue.push(...Object.values(byName.get(name)?.neighbours ?? {}));
      }
      expect(reached.size).toBe(sheets.length);
    });
  });

  test('neighbours name each other, and both show the marks of their seam', () => {
    check((_, { sheets }) => {
      for (const sheet of sheets) {
        for (const { at } of sheet.marks) expect(holds(sheet, 'window', at, -1)).toBe(true);
        const right = sheets.find(({ name }) => name === sheet.neighbours.right);
        if (sheet.neighbours.right) expect(right?.neighbours.left).toBe(sheet.name);
        const below = sheets.find(({ name }) => name === sheet.neighbours.below);
        if (sheet.neighbours.below) expect(below?.neighbours.above).toBe(sheet.name);
      }
    });
  });

  test('the search never takes more sheets than the plain layout, nor fewer than the bound', () => {
    check((part, layout) => {
      const { sheets, lowerBound } = layout;
      expect(sheets.length).toBeGreaterThanOrEqual(lowerBound);
      expect(lowerBound).toBeGreaterThanOrEqual(1);
      const { paper, margin, overlap } = layout;
      const best = layOut(part, { paper, margin, overlap, turn: 'auto' });
      expect(best.sheets.length).toBeLessThanOrEqual(best.plainSheets);
      expect(best.sheets.length).toBeLessThanOrEqual(layOut(part, { ...best, turn: 0 }).sheets.length);
    });
  });

  test('neighbours show the same over the whole overlap', () => {
    check((_, { sheets, overlap }) => {
      for (const sheet of sheets) {
        const right = sheets.find(({ name }) => name === sheet.neighbours.right);
        const below = sheets.find(({ name }) => name === sheet.neighbours.below);
        const away = (other: Sheet): Point => {
          const { x, y } = transformPoint(invert(other.toSheet), { x: 0, y: 0 });
          return transformPoint(sheet.toSheet, { x, y });
        };
        if (right) expect(sheet.window.right - (away(right).x + right.window.left)).toBeCloseTo(overlap, 6);
        if (below) expect(away(below).y + below.window.top - sheet.window.bottom).toBeCloseTo(overlap, 6);
      }
    });
  });

  test('the same part gives the same layout', () => {
    check((part, layout) => {
      const { paper, margin, overlap } = layout;
      const twice = [1, 2].map(() => layOut(part, { paper, margin, overlap, turn: 'auto' }));
      expect(twice[0]).toEqual(twice[1]);
    });
  });

  test('every printed sheet holds some of the line, or lies within the corner clearance of it', () => {
    check((part, { sheets }) => {
      const chords = flatten(linesToCut(part));
      for (const sheet of sheets) {
        const own = chords.map(({ from, to }) => ({
          from: transformPoint(sheet.toSheet, from),
          to: transformPoint(sheet.toSheet, to),
        }));
        expect(own.some((chord) => segmentIntersectsBox(chord, inflate(sheet.cell, 3.01)))).toBe(true);
      }
    });
  });
});

test('cells tile the windows of a grid without gaps', () => {
  const grid = {
    orientation: 'upright',
    size: { width: 210, height: 297 },
    margin: marginSides(10),
    stretch: { x: 1, y: 1 },
    overlap: 15,
    rows: 3,
    columns: 4,
    left: 5,
    top: 100,
  } as const;
  for (let row = 0; row < 3; row++)
    for (let column = 0; column < 3; column++)
      expect(trimmedCell(grid, { row, column }).right).toBeCloseTo(
        trimmedCell(grid, { row, column: column + 1 }).left,
        9,
      );
  expect(trimmedCell(grid, { row: 0, column: 0 }).left).toBe(windowOfCell(grid, { row: 0, column: 0 }).left);
});
