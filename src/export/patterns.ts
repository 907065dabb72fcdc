import type { Part } from '../part/part.ts';
import type { Layout } from '../tiling/layout.ts';
import { coverPages } from './cover-page.ts';
import type { Page } from './drawing.ts';
import { settingOut } from './setting-out.ts';
import { sheetPage } from './sheet-page.ts';

/** The pages of a pattern: the cover where wanted, then the sheets in the order of taping. */
export function composePattern(part: Part, layout: Layout, cover: boolean): Page[] {
  const setting = settingOut(part);
  return [
    ...(cover ? coverPages(part, layout, setting) : []),
    ...layout.sheets.map((sheet) => sheetPage(part, layout, sheet, setting)),
  ];
}

/** The pages' names in order, as a reader shows them: "cover", "A1", … */
export const pageNames = (part: Part, layout: Layout, cover: boolean): string[] => [
  ...(cover ? coverPages(part, layout, settingOut(part)).map(({ name }) => name) : []),
  ...layout.sheets.map(({ name }) => name),
];
