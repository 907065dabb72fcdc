import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { sampleText } from '../part/jobs.ts';
import { test } from './browser.ts';
import { begin, jobText, rested, STATION, typeStation } from './on-page.ts';

/** Another tab of the same browser; it counts what it writes and removes of jobs. */
async function anotherTab(page: Page, init = ''): Promise<Page> {
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
const shared = (page: Page): Promise<string[]> =>
  page.evaluate(`Object.keys(localStorage).filter((key) => key.startsWith('fairlath.job'))
    .map((key) => localStorage.getItem(key).replace(/^\\d+\\n/, ''))`);

const offer = (page: Page) => page.locator('#kept');
const unkept = (page: Page) => page.locator('#unkept');
const takeUp = (page: Page) => page.getByText('Take it up again').click();

/** Types without a rest of the hand after it. */
async function typeAtOnce(page: Page, station: string): Promise<string> {
  await page.getByLabel(STATION).fill(station);
  await page.getByLabel(STATION).press('Enter');
  return await jobText(page);
}

async function again(page: Page): Promise<void> {
  await page.reload();
  await rested(page);
}

describe('what is in hand', () => {
  test('is kept without complaint, and offered back after a reload', async ({ openPage }) => {
    const { page } = await openPage();
    expect(await unkept(page).isVisible()).toBe(false);
    await typeStation(page, '13');
    const text = await jobText(page);
    await page.reload();
    expect(await jobText(page)).not.toBe(text);
    await takeUp(page);
    expect(await jobText(page)).toBe(text);
    expect(await offer(page).isVisible()).toBe(false);
    // It is kept though the page goes at once, and offered however often the page is opened.
    const last = await typeAtOnce(page, '14');
    for (const _ of ['once', 'again']) await again(page);
    await takeUp(page);
    expect(await jobText(page)).toBe(last);
  });

  test('that is turned down is not offered again', async ({ openPage }) => {
    const { page } = await openPage();
    await typeAtOnce(page, '13');
    await again(page);
    await page.getByText('Leave it').click();
    expect(await offer(page).isVisible()).toBe(false);
    await again(page);
    expect(await offer(page).isVisible()).toBe(false);
    expect(await shared(page)).toEqual([]);
  });
});

describe('two tabs', () => {
  test('the one that has changed nothing writes nothing and removes nothing', async ({ openPage }) => {
    const { page } = await openPage();
    const other = await anotherTab(page);
    await typeStation(page, '13');
    await other.evaluate("dispatchEvent(new Event('pagehide'))");
    expect(await other.evaluate('touched')).toEqual([]);
    await again(other);
    expect(await other.evaluate('touched')).toEqual([]);
    expect(await shared(page)).toEqual([await jobText(page)]);
    await other.close();
  });

  test('each is offered its own job', async ({ openPage }) => {
    const { page } = await openPage();
    const other = await anotherTab(page);
    const text = await typeAtOnce(page, '14');
    await begin(other, 'Garden arch rail');
    for (const each of [page, other]) await again(each);
    for (const each of [page, other]) await takeUp(each);
    expect(await jobText(page)).toBe(text);
    expect(await jobText(other)).toBe(sampleText('garden-arch-rail.yaml'));
    await other.close();
  });

  test('what one turns down stays kept while the other has it in hand', async ({ openPage }) => {
    const { page } = await openPage();
    await typeStation(page, '13');
    const text = await jobText(page);
    const other = await anotherTab(page);
    await other.getByText('Leave it').click();
    expect(await other.evaluate('touched.length')).toBeGreaterThan(0);
    // The tab hears of it in its own time, and writes its job again.
    await expect.poll(() => shared(other), { timeout: 10_000 }).toEqual([text]);
    await other.close();
  });
});

describe('storage', () => {
  const FULL = `Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };`;
  const OFF = `for (const name of ['localStorage', 'sessionStorage'])
    Object.defineProperty(window, name, { get() { throw new DOMException('no', 'SecurityError'); } });`;

  test('that is full is told of: the job of the last visit is offered at every opening, and taken up stays kept', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await typeStation(page, '13');
    const text = await jobText(page);
    const other = await anotherTab(page, FULL);
    for (const _ of ['once', 'again']) {
      expect(await offer(other).isVisible()).toBe(true);
      expect(await unkept(other).isVisible()).toBe(true);
      await takeUp(other);
      expect(await jobText(other)).toBe(text);
      await typeAtOnce(other, '15');
      await again(other);
    }
    await other.close();
  });

  test('that is switched off is told of, and the page works', async ({ openPage }) => {
    const { page, complaints } = await openPage({}, OFF);
    expect(await unkept(page).isVisible()).toBe(true);
    expect(await offer(page).isVisible()).toBe(false);
    await typeStation(page, '13');
    expect(await jobText(page)).toContain('[13, 3 1/4]');
    expect(complaints).toEqual([]);
  });
});
