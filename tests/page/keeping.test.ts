import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { again, anotherTab, offer, shared, takeUp, typeAtOnce, unkept } from './kept.ts';
import { jobText, typeStation } from './on-page.ts';

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
    await page.getByText('Discard').click();
    expect(await offer(page).isVisible()).toBe(false);
    await again(page);
    expect(await offer(page).isVisible()).toBe(false);
    expect(await shared(page)).toEqual([]);
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
