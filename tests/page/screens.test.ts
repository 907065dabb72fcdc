import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { layOpen, SCREENS, type Screen } from './screens.ts';

describe.each(Object.keys(SCREENS) as Screen[])('on a %s', (screen) => {
  test('nothing runs off the side, and what is touched is large enough', async ({ openPage }) => {
    const { page } = await openPage({ viewport: SCREENS[screen], hasTouch: true });
    await layOpen(page);
    const fits = () => page.evaluate('document.documentElement.scrollWidth <= innerWidth');
    expect(await fits()).toBe(true);
    const small = await page.evaluate(`
    [...document.querySelectorAll('button, select, summary, input[type=text], label.choice')]
      .map((node) => ({ what: node.textContent || node.getAttribute('aria-label'), box: node.getBoundingClientRect() }))
      .filter(({ box }) => box.height > 0 && box.height < 44)
      .map(({ what, box }) => what + ' ' + box.height)`);
    expect(small).toEqual([]);
    // A browser asked for letters twice as large; and a desktop at 400 % (WCAG 2.1, 1.4.4 and 1.4.10).
    const browserOf = await page.context().newCDPSession(page);
    await browserOf.send('Page.setFontSizes', { fontSizes: { standard: 32 } });
    expect(await page.evaluate('getComputedStyle(document.documentElement).fontSize')).toBe('36px');
    expect(await fits()).toBe(true);
    await browserOf.send('Page.setFontSizes', { fontSizes: { standard: 16 } });
    await page.setViewportSize({ width: 320, height: 256 });
    await expect.poll(fits).toBe(true);
    await browserOf.detach();
  });
});

test('the name, the unit and what is done with the job stand in one row on a tablet, in two on a phone', async ({
  openPage,
}) => {
  const { page } = await openPage({ viewport: { width: 820, height: 1180 } });
  const rows = (): Promise<number> =>
    page.evaluate(`new Set([...document.querySelectorAll('header button, header select, header input')]
      .map((node) => { const { top, height } = node.getBoundingClientRect(); return Math.round(top + height / 2); })).size`);
  expect(await rows()).toBe(1);
  for (const width of [360, 390]) {
    await page.setViewportSize({ width, height: 780 });
    expect(await rows()).toBe(2);
  }
});
