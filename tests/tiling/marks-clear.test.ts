import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inflate } from '../../src/curves/geometry/bounds.ts';
import { flatten, segmentIntersectsBox } from '../../src/curves/geometry/flatten.ts';
import type { Point } from '../../src/curves/geometry/point.ts';
import type { Part, PartEdge } from '../../src/part/part.ts';
import { linesToCut } from '../../src/tiling/grid/lines-to-tile.ts';
import { REGISTER_REACH_MM } from '../../src/tiling/grid/seams.ts';
import type { Sheet } from '../../src/tiling/layout.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../src/tiling/tile.ts';
import { block, gentlePart } from './parts.ts';

/** The square inside a mark, however it lies to the part. */
const WITHIN_MM = REGISTER_REACH_MM / Math.SQRT2;

function marksOnLines(part: Part, sheets: readonly Sheet[]): Point[] {
  const lines = flatten(linesToCut(part));
  return sheets
    .flatMap(({ marks }) => marks.map(({ at }) => at))
    .filter(({ x, y }) => {
      const box = inflate({ left: x, right: x, bottom: y, top: y }, WITHIN_MM);
      return lines.some((line) => segmentIntersectsBox(line, box));
    });
}

const LAID = { margin: 12.7, overlap: 15 } as const;

test('property: every seam has a mark, and none lies on a line to cut, however small the paper and any way round', () => {
  fc.assert(
    fc.property(
      gentlePart(),
      fc.constantFrom('160x200mm', '156x156mm', 'a4'),
      fc.oneof(fc.constantFrom(0, 90, 'auto' as const), fc.double({ min: 0, max: 360, noNaN: true })),
      (part, paper, turn) => {
        const { sheets } = layOut(part, { paper: parsePaper(paper), ...LAID, turn });
        for (const sheet of sheets)
          for (const neighbour of Object.values(sheet.neighbours))
            expect(sheet.marks.some((mark) => mark.sheets.includes(neighbour))).toBe(true);
        expect(marksOnLines(part, sheets)).toEqual([]);
      },
    ),
    { numRuns: 25 },
  );
});

test('where lines run beside every seam, however the part is shifted, a mark is left out sooner than laid on one', () => {
  // To and fro every 8 mm: nowhere is there white of 13 mm for a mark.
  const corners = Array.from({ length: 40 }, (_, i) => [
    { x: i % 2 ? 400 : 0, y: 8 * i },
    { x: i % 2 ? 0 : 400, y: 8 * i },
  ]).flat();
  const line = corners.slice(1).map((to, i) => ({ type: 'line', from: corners[i]!, to }) as const);
  const part: Part = {
    ...block(400, 312),
    edges: [] as readonly PartEdge[] as Part['edges'],
    shape: { type: 'line', line, chord: [corners[0]!, corners.at(-1)!] },
  };
  for (const turn of [0, 'auto'] as const) {
    const { sheets } = layOut(part, { paper: parsePaper('a4'), ...LAID, turn });
    expect(sheets.length).toBeGreaterThan(1);
    expect(marksOnLines(part, sheets)).toEqual([]);
  }
});
