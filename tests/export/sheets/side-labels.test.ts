import { describe, expect, test } from 'vitest';
import { invert, transformPoint } from '../../../src/curves/geometry/affine.ts';
import { formNotes } from '../../../src/export/cover/pattern-notes.ts';
import type { Item } from '../../../src/export/drawing/drawing.ts';
import { LINE_APPEARANCES } from '../../../src/export/drawing/drawing.ts';
import { patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import { formOf } from '../../../src/part/derived/bending-form.ts';
import { offsetAt } from '../../../src/part/offsets.ts';
import { formFactor, laminate } from '../../../src/shop/strip/lamination.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { partOf } from '../../part/jobs.ts';

const species = findSpecies('white oak');
const STEPS = {
  'an arch': 'arc: [700, 0]\n      rise: 130',
  'a hollow': 'arc: [700, 0]\n      rise: -130',
  'a shallow arch': 'arc: [1400, 0]\n      rise: 20',
  'an S': 'spline: [900, 0]\n      through: [[200, 70], [450, 0], [700, -70]]',
  'a batten': 'batten: [800, 60]\n      through: [250, 140]',
};

function printForm(steps: string, above: boolean, turn: 'auto' | number) {
  const part = partOf(`part: Rail\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - ${steps}\n`);
  const lamination = laminate({
    species,
    rule: part.rule,
    curvature: 1 / 400,
    hollow: 1 / 400,
    thickness: 20,
  });
  const form = formOf(part, part.edges[0]!, formFactor(lamination.plies), above);
  const paper = parsePaper('a4');
  const layout = layOut(form.part, { paper, margin: 12.7, overlap: 15, turn });
  const notes = formNotes(form, lamination, 'top', species);
  const pages = [...patternPages(form.part, layout, false, notes).pages];
  return { form, layout, pages, notes };
}

const wordsOn = (items: readonly Item[]) => items.flatMap((item) => (item.type === 'words' ? [item] : []));

describe('every sheet of a form', () => {
  const CASES = Object.entries(STEPS).flatMap(([name, steps]) =>
    [true, false].flatMap((above) =>
      (['auto', 90, 180] as const).map((turn) => [name, above, turn, steps] as const),
    ),
  );

  test.each(CASES)(
    'says on which side of the line the form is: %s, plies above: %s, turn %s',
    (_, above, turn, steps) => {
      const { form, layout, pages } = printForm(steps, above, turn);
      const [edge] = form.part.edges;
      let placed = 0;
      for (const [i, sheet] of layout.sheets.entries())
        for (const { text, at, size } of wordsOn(pages[i]!.drawing.items)) {
          if (!text.endsWith('THIS SIDE')) continue;
          placed++;
          expect(size).toBeGreaterThanOrEqual(5);
          const { x, y } = transformPoint(invert(sheet.toSheet), at);
          const face = offsetAt(edge!, x);
          if (face === undefined) continue;
          expect(y > face).toBe(text.startsWith('PLIES') === above);
        }
      // A sheet that has a corner of the line alone may have no room.
      expect(placed).toBeGreaterThanOrEqual(2 * layout.sheets.length - 2);
    },
  );

  test('draws its face and the line that it springs back to each its own way, in the legend as on the sheet', () => {
    const { pages } = printForm(STEPS['an arch'], true, 'auto');
    const styles = pages.flatMap(({ drawing }) =>
      drawing.items.flatMap((item) =>
        item.type === 'clip'
          ? item.items.flatMap((each) => (each.type === 'stroke' ? [each.style] : []))
          : [],
      ),
    );
    expect(styles).toContain('parallel');
    expect(LINE_APPEARANCES.parallel.dash).toBeDefined();
    expect(LINE_APPEARANCES.cut.dash).toBeUndefined();
    const legends = pages.flatMap(({ drawing }) => drawing.items).filter((item) => item.type === 'stroke');
    expect(legends.filter(({ style }) => style === 'parallel').length).toBeGreaterThan(0);
  });
});
