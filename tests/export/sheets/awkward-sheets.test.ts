import { expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import { type Box, boxesOverlap } from '../../../src/curves/geometry/bounds.ts';
import { flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import { patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import type { Part } from '../../../src/part/part.ts';
import { linesToCut } from '../../../src/tiling/grid/lines-to-tile.ts';
import type { Layout } from '../../../src/tiling/layout.ts';
import { layOutMirrored } from '../../../src/tiling/mirrored-layout.ts';
import { PAPERS, parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { type LayOutOptions, layOut } from '../../../src/tiling/tile.ts';
import { Fault, Faults } from '../../../src/units/fault.ts';
import { Random, ROUNDS } from '../../fuzz/random.ts';
import { anyPart } from '../../stress/part-cases.ts';
import { boxOnSheet, moved, wordsFrame, wordsOf } from '../words-on.ts';

const PARTS = 20 * ROUNDS;
const MOST_SHEETS = 8;
const PAPER_NAMES = [...PAPERS.map(({ name }) => name), '160x200mm', 'roll:24in'];
const PRINTERS = [{}, { printer: { across: 1.012, down: 0.993 } }];

/** The refused parts are not the sheets' business: some are too long for the paper, some cannot be cut. */
function unlessRefused<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch (error) {
    if (error instanceof Fault || error instanceof Faults) return undefined;
    throw error;
  }
}

function expectClear(part: Part, layout: Layout): void {
  const chords = flatten(linesToCut(part));
  for (const [i, page] of [...patternPages(part, layout, false).pages].entries()) {
    const sheet = layout.sheets[i]!;
    const lines = chords
      .map(({ from, to }) => ({
        from: transformPoint(sheet.toSheet, from),
        to: transformPoint(sheet.toSheet, to),
      }))
      .filter((line) => segmentIntersectsBox(line, sheet.window));
    const known: { readonly text: string; readonly box: Box }[] = [];
    for (const words of wordsOf(page.drawing.items)) {
      const { box, into } = wordsFrame(words);
      const onLine = moved(lines, into).some((line) => segmentIntersectsBox(line, box));
      expect(onLine, `"${words.text}" on a line of sheet ${sheet.name}`).toBe(false);
      const mine = boxOnSheet(words);
      // The word of a grain arrow at a slant has a box far wider than itself.
      if ((words.turn ?? 0) % (Math.PI / 2) !== 0) continue;
      const under = known.filter((other) => boxesOverlap(mine, other.box)).map(({ text }) => text);
      expect(under, `"${words.text}" on sheet ${sheet.name}`).toEqual([]);
      known.push({ text: words.text, box: mine });
    }
  }
}

test('property: no word is on a line or on another word, on any paper, any way round, of awkward parts', () => {
  let printed = 0;
  for (let seed = 0; printed < PARTS && seed < 40 * PARTS; seed++) {
    const random = new Random(seed);
    const part = unlessRefused(() => anyPart(random));
    if (!part) continue;
    const options: LayOutOptions = {
      paper: parsePaper(random.pick(PAPER_NAMES)),
      margin: 12.7,
      overlap: 15,
      turn: random.pick(['auto', 0, 90, 33.3] as const),
      maxSheets: MOST_SHEETS,
      ...random.pick(PRINTERS),
    };
    const lay = random.pick([layOut, layOutMirrored]);
    const layout = unlessRefused(() => lay(part, options));
    if (!layout) continue;
    printed++;
    expectClear(part, layout);
  }
  expect(printed).toBe(PARTS);
});
