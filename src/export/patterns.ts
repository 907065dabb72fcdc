import { mapSegment } from '../curves/segment.ts';
import type { Part } from '../part/part.ts';
import { chordsOf } from '../tiling/chords.ts';
import type { Layout, Sheet } from '../tiling/layout.ts';
import { coverPages } from './cover-page.ts';
import type { Item, Page, Stroke } from './drawing.ts';
import type { PatternNotes } from './pattern-notes.ts';
import { settingOut } from './setting-out.ts';
import { sheetPage } from './sheet-page.ts';
import { patternLines, VIEW_CHORD_MM } from './sheet-view.ts';

/**
 * The pages of a pattern, each composed when it is asked for, so that a long one need not be held whole:
 * the cover where wanted, then the sheets in the order of taping.
 */
export function* composePattern(
  part: Part,
  layout: Layout,
  cover: boolean,
  notes?: PatternNotes,
): Generator<Page> {
  const setting = settingOut(part);
  if (cover) yield* coverPages(part, layout, setting, notes);
  const lines = [...patternLines(part), ...(notes ? chordsOf(notes.beside.path, VIEW_CHORD_MM) : [])];
  const pattern = { part, layout, setting, lines, ...(notes && { notes }) };
  for (const sheet of layout.sheets) yield withBeside(sheetPage(pattern, sheet), sheet, notes);
}

/** The pages of a pattern and, of a pair whose halves differ, of its mirror image after it. */
export function* composePatterns(part: Part, layouts: readonly Layout[], cover: boolean): Generator<Page> {
  for (const layout of layouts) yield* composePattern(part, layout, cover);
}

/** The thin line lies beneath all else. */
function withBeside(page: Page, sheet: Sheet, notes: PatternNotes | undefined): Page {
  if (!notes) return page;
  const { path, closed } = notes.beside;
  const line: Stroke = {
    type: 'stroke',
    style: 'station',
    path: path.map((segment) => mapSegment(segment, sheet.toSheet)),
    closed,
  };
  const items: Item[] = [{ type: 'clip', ...sheet.window, items: [line] }, ...page.drawing.items];
  return { ...page, drawing: { ...page.drawing, items } };
}

/** The pages' names in order, as a reader shows them: "cover", "A1", … */
export const pageNames = (part: Part, layout: Layout, cover: boolean, notes?: PatternNotes): string[] => [
  ...(cover ? coverPages(part, layout, settingOut(part), notes).map(({ name }) => name) : []),
  ...layout.sheets.map(({ name }) => name),
];
