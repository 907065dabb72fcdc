import type { Page } from 'playwright-core';
import { rested } from './on-page.ts';

export const SCREENS = {
  phone: { width: 360, height: 740 },
  'tablet upright': { width: 820, height: 1180 },
  'tablet lying': { width: 1180, height: 820 },
  desktop: { width: 1440, height: 900 },
} as const;
export type Screen = keyof typeof SCREENS;
export const SCHEMES = ['light', 'dark'] as const;

/** Everything laid open and over the part: nothing may hide from the checks. */
export async function layOpen(page: Page): Promise<void> {
  for (const summary of await page.locator('summary').all()) await summary.click();
  for (const name of ['curvature comb', 'arc', 'show the sheets'])
    await page.getByLabel(name).first().check();
  await rested(page);
}
