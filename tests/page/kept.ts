import type { Page } from 'playwright-core';
import { jobText, rested, STATION } from './on-page.ts';

/** Another tab of the same browser; it counts what it writes and removes of jobs. */
export async function anotherTab(page: Page, init = ''): Promise<Page> {
  const other = await page.context().newPage();
  await other.addInitScript(`
    window.touched = [];
    for (const name of ['setItem', 'removeItem']) {
      const work = Storage.prototype[name];
      Storage.prototype[name] = function (key, ...given) {
        if (key.startsWith('fairlath.job')) touched.push(name + ' ' + key);
        return work.call(this, key, ...given);
      };
    }
    ${init}`);
  await other.goto(page.url());
  await rested(other);
  return other;
}

/** Every job that the shared store holds, as a tab sees it. */
export const shared = (page: Page): Promise<string[]> =>
  page.evaluate(`Object.keys(localStorage).filter((key) => key.startsWith('fairlath.job'))
    .map((key) => localStorage.getItem(key).replace(/^\\d+\\n/, ''))`);

export const offer = (page: Page) => page.locator('#kept');
export const unkept = (page: Page) => page.locator('#unkept');
export const takeUp = (page: Page) => page.getByText('Open it').click();

/** Types without a rest of the hand after it. */
export async function typeAtOnce(page: Page, station: string): Promise<string> {
  await page.getByLabel(STATION).fill(station);
  await page.getByLabel(STATION).press('Enter');
  return await jobText(page);
}

export async function again(page: Page): Promise<void> {
  await page.reload();
  await rested(page);
}
