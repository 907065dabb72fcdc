import type { Part } from '../../part/part.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { patternCover } from '../cover/cover-page.ts';
import type { PatternNotes } from '../cover/pattern-notes.ts';
import { dimensionsOf } from '../drawing/dimensions.ts';
import type { Page } from '../drawing/drawing.ts';
import { patternOf } from './sheet-context.ts';
import { sheetPage } from './sheet-page.ts';

export interface PatternPages {
  readonly names: readonly string[];
  /** Each sheet composed when it is asked for, so that a long pattern need not be held whole. */
  readonly pages: Generator<Page>;
}

/** The cover names the sheets of `mirrored` as well. */
export function patternPages(
  part: Part,
  layout: Layout,
  cover: boolean,
  notes?: PatternNotes,
  mirrored?: Layout,
): PatternPages {
  const dimensions = dimensionsOf(part);
  const covers = cover ? patternCover(part, layout, dimensions, notes, mirrored) : [];
  const pattern = patternOf(part, layout, dimensions, notes);
  return coverThenSheets(covers, layout, (sheet) => sheetPage(pattern, sheet));
}

export const coverThenSheets = (
  covers: readonly Page[],
  { sheets }: Layout,
  compose: (sheet: Sheet) => Page,
): PatternPages => ({
  names: [...covers, ...sheets].map(({ name }) => name),
  pages: composeInOrder(covers, sheets, compose),
});

function* composeInOrder(covers: readonly Page[], sheets: Layout['sheets'], compose: (sheet: Sheet) => Page) {
  yield* covers;
  for (const sheet of sheets) yield compose(sheet);
}

/** One pattern, or both of a pair after one cover. */
export function pairPages(part: Part, layouts: readonly Layout[], cover: boolean): PatternPages {
  const mirrored = layouts.find((layout) => layout.mirrored);
  const each = layouts.map((layout, i) => patternPages(part, layout, cover && i === 0, undefined, mirrored));
  return { names: each.flatMap(({ names }) => names), pages: concatenate(each.map(({ pages }) => pages)) };
}

function* concatenate(all: readonly Iterable<Page>[]): Generator<Page> {
  for (const pages of all) yield* pages;
}
