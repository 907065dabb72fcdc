import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Part } from '../../src/part/part.ts';
import { chordsOf, grown, passes } from '../../src/tiling/chords.ts';
import { layOut, linesToCut } from '../../src/tiling/lay-out.ts';
import { parsePaper } from '../../src/tiling/paper.ts';
import { REGISTER_REACH_MM } from '../../src/tiling/seams.ts';
import { block, gentlePart } from './parts.ts';

const LAID = { margin: 12.7, overlap: 15 } as const;

test('property: no register mark lies on a line to cut, however small the paper and any way round', () => {
  fc.assert(
    fc.property(
      gentlePart(),
      fc.constantFrom('160x200mm', '156x156mm', 'a4'),
      fc.oneof(fc.constantFrom(0, 90, 'auto' as const), fc.double({ min: 0, max: 360, noNaN: true })),
      (part, paper, turn) => {
        const { sheets } = layOut(part, { paper: parsePaper(paper), ...LAID, turn });
        const lines = chordsOf(linesToCut(part));
        for (const { at } of sheets.flatMap(({ marks }) => marks)) {
          const box = grown(
            { left: at.x, right: at.x, bottom: at.y, top: at.y },
            REGISTER_REACH_MM / Math.SQRT2,
          );
          expect(lines.some((line) => passes(line, box))).toBe(false);
        }
      },
    ),
    { numRuns: 25 },
  );
});

test('lines beside every seam, however the part is shifted, are told with what to change', () => {
  // To and fro every 8 mm: nowhere is there white of 13 mm for a mark.
  const corners = Array.from({ length: 40 }, (_, i) => [
    { x: i % 2 ? 400 : 0, y: 8 * i },
    { x: i % 2 ? 0 : 400, y: 8 * i },
  ]).flat();
  const line = corners.slice(1).map((to, i) => ({ type: 'line', from: corners[i]!, to }) as const);
  const part: Part = {
    ...block(400, 312),
    edges: [],
    shape: { type: 'line', line, chord: [corners[0]!, corners.at(-1)!] },
  };
  for (const turn of [0, 'auto'] as const)
    expect(() => layOut(part, { paper: parsePaper('a4'), ...LAID, turn })).toThrow(
      expect.objectContaining({ code: 'layout.no-marks', message: expect.stringContaining('larger paper') }),
    );
});
