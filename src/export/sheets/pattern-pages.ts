import { flatten } from '../../curves/geometry/flatten.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Part } from '../../part/part.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { patternCover } from '../cover/cover-page.ts';
import type { PatternNotes } from '../cover/pattern-notes.ts';
import { dimensionsOf } from '../drawing/dimensions.ts';
import type { Item, Page, Stroke } from '../drawing/drawing.ts';
import { type Pattern, patternLines, SHEET_CHORD_MM } from './sheet-context.ts';
import { sheetPage } from './sheet-page.ts';

/** A pattern's pages: the cover where wanted, then the sheets in the order of taping. */
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
    pages: coverThenSheets(covers, { part, layout, dimensions }, notes),
  };
}

function* coverThenSheets(
  covers: readonly Page[],
  pattern: Omit<Pattern, 'lines' | 'notes'>,
  notes: PatternNotes | undefined,
): Generator<Page> {
  yield* covers;
  const { part, layout } = pattern;
  const lines = [...patternLines(part), ...(notes ? flatten(notes.referenceCurve.path, SHEET_CHORD_MM) : [])];
  const whole = { ...pattern, lines, ...(notes && { notes }) };
  for (const sheet of layout.sheets) yield withReferenceCurve(sheetPage(whole, sheet), sheet, notes);
}

/** The pages of a pattern and, of a pair whose halves differ, of its mirror image after it. */
export function pairPages(part: Part, layouts: readonly Layout[], cover: boolean): PatternPages {
  const each = layouts.map((layout) => patternPages(part, layout, cover));
  return { names: each.flatMap(({ names }) => names), pages: concatenate(each.map(({ pages }) => pages)) };
}

function* concatenate(all: readonly Iterable<Page>[]): Generator<Page> {
  for (const pages of all) yield* pages;
}

/** The thin line lies beneath all else. */
function withReferenceCurve(page: Page, sheet: Sheet, notes: PatternNotes | undefined): Page {
  if (!notes) return page;
  const { path, closed } = notes.referenceCurve;
  const line: Stroke = {
    type: 'stroke',
    style: 'station',
    path: transformPath(path, sheet.toSheet),
    closed,
  };
  const items: Item[] = [{ type: 'clip', ...sheet.window, items: [line] }, ...page.drawing.items];
  return { ...page, drawing: { ...page.drawing, items } };
}
