import type { Part } from '../part/part.ts';
import type { Layout } from '../tiling/layout.ts';
import { coverPages } from './cover-page.ts';
import type { Page } from './drawing.ts';
import { settingOut } from './setting-out.ts';
import { sheetPage } from './sheet-page.ts';
import { patternLines } from './sheet-view.ts';

/**
 * The pages of a pattern, each composed when it is asked for, so that a long one need not be held whole:
 * the cover where wanted, then the sheets in the order of taping.
 */
export function* composePattern(part: Part, layout: Layout, cover: boolean): Generator<Page> {
  const setting = settingOut(part);
  if (cover) yield* coverPages(part, layout, setting);
  const lines = patternLines(part);
  for (const sheet of layout.sheets) yield sheetPage({ part, layout, setting, lines }, sheet);
}

/** The pages' names in order, as a reader shows them: "cover", "A1", … */
export const pageNames = (part: Part, layout: Layout, cover: boolean): string[] => [
  ...(cover ? coverPages(part, layout, settingOut(part)).map(({ name }) => name) : []),
  ...layout.sheets.map(({ name }) => name),
];
