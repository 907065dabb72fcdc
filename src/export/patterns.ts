import type { Part } from '../part/part.ts';
import type { Layout } from '../tiling/layout.ts';
import type { Page } from './drawing.ts';
import { sheetPage } from './sheet-page.ts';

/** The pages of a pattern: the cover where wanted, then the sheets in the order of taping. */
export function composePattern(part: Part, layout: Layout, cover: boolean): Page[] {
  const covers: Page[] = [];
  return [...(cover ? covers : []), ...layout.sheets.map((sheet) => sheetPage(part, layout, sheet))];
}

/** The pages' names in order, as a reader shows them. */
export const pageNames = (part: Part, layout: Layout, cover: boolean): string[] =>
  composePattern(part, layout, cover).map(({ name }) => name);
