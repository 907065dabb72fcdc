import type { Page } from 'playwright-core';
import { jobText, middleOf, NAIL } from './on-page.ts';

export const END = 'edges.back[1].batten';

/** The leg's list of nails as it is written. */
export const nails = async (page: Page): Promise<string> =>
  /through: (.*?) *#/.exec(await jobText(page))?.[1] ?? '';

/** A place a little off the line of the back, between its nail and its right end. */
export async function besideLine(page: Page): Promise<{ x: number; y: number }> {
  const [nail, end] = [await middleOf(page, NAIL), await middleOf(page, END)];
  return { x: (nail.x + end.x) / 2, y: nail.y + 6 };
}

export const set = (page: Page) => page.getByRole('button', { name: 'Add a nail' });
export const out = (page: Page) => page.getByRole('button', { name: /^Remove/ });
export const inHand = (page: Page) => page.evaluate('document.activeElement.dataset.key');
export const faults = (page: Page) => page.locator('#faults').textContent();
