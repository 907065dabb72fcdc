import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import { patternCover } from '../cover/cover-page.ts';
import type { PatternNotes } from '../cover/pattern-notes.ts';
import { dimensionsOf } from '../drawing/dimensions.ts';
import type { Page } from '../drawing/drawing.ts';
import { type Pattern, patternOf } from './sheet-context.ts';
import { sheetPage } from './sheet-page.ts';

export interface PatternPages {
  /** As a reader shows them: "cover", "A1", … */
  readonly names: readonly string[];
  /** Each sheet composed when it is asked for, so that a long pattern need not be held whole. */
  readonly pages: Iterable<Page>;
}

export function patternPages(part: Part, layout: Layout, cover: boolean, notes?: PatternNotes): PatternPages {
  const dimensions = dimensionsOf(part);
  const covers = cover ? patternCover(part, layout, dimensions, notes) : [];
  return {
    names: [...covers, ...layout.sheets].map(({ name }) => name),
    pages: coverThenSheets(covers, () => patternOf(part, layout, dimensions, notes)),
  };
}

function* coverThenSheets(covers: readonly Page[], pattern: () => Pattern): Generator<Page> {
  yield* covers;
  const whole = pattern();
  for (const sheet of whole.layout.sheets) yield sheetPage(whole, sheet);
}

/** A pattern's pages, then those of its mirror image where the two differ. */
export function pairPages(part: Part, layouts: readonly Layout[], cover: boolean): PatternPages {
  const each = layouts.map((layout) => patternPages(part, layout, cover));
  return { names: each.flatMap(({ names }) => names), pages: concatenate(each.map(({ pages }) => pages)) };
}

function* concatenate(all: readonly Iterable<Page>[]): Generator<Page> {
  for (const pages of all) yield* pages;
}
