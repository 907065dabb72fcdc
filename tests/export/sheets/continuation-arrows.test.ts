import { expect, test } from 'vitest';
import type { Words } from '../../../src/export/drawing/drawing.ts';
import { patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { samplePart } from '../../part/jobs.ts';

test('where the line leaves a sheet an arrow names the sheet it runs on to', () => {
  const part = samplePart('hall-bench-leg.yaml');
  const layout = layOut(part, { paper: parsePaper('letter'), margin: 12.7, overlap: 15, turn: 0 });
  [...patternPages(part, layout, false).pages].forEach(({ drawing }, i) => {
    const sheet = layout.sheets[i]!;
    const names = drawing.items.filter(
      (item): item is Words =>
        item.type === 'words' && Object.values(sheet.neighbours).some((name) => name === item.text),
    );
    for (const [side, name] of Object.entries(sheet.neighbours)) {
      // Two edges cross each seam, each with its saw line beside it: one arrow an edge.
      const arrows = names.filter(({ text }) => text === name);
      expect(arrows).toHaveLength(2);
      for (const { at } of arrows)
        expect(Math.abs(at.x - (side === 'left' ? sheet.cell.left : sheet.cell.right))).toBeLessThan(20);
    }
  });
});
