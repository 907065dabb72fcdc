import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { inHand, nails, out, set } from './nails.ts';
import { grip, jobText, NAIL } from './on-page.ts';

describe('by keyboard alone', () => {
  test('tab to a point, arrows by a graduation, shift for ten, Escape takes it back', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    for (let i = 0; i < 40; i++) {
      await page.keyboard.press('Tab');
      if ((await page.evaluate(`document.activeElement.dataset.key`)) === NAIL) break;
    }
    expect(await grip(page, NAIL).getAttribute('aria-label')).toBe('back, nail');
    for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowUp']) await page.keyboard.press(key);
    expect(await jobText(page)).toContain('through: [12 1/16, 3 9/16]');
    expect(await grip(page, NAIL).getAttribute('aria-valuetext')).toContain('12');
    await page.keyboard.press('Escape');
    expect(await jobText(page)).toContain('through: [12, 3 1/4]');
  });

  test('steps go back and forward, and a burst of nudges is one step', async ({ openPage }) => {
    const { page } = await openPage();
    const first = await jobText(page);
    await grip(page, NAIL).focus();
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowUp');
    const nudged = await jobText(page);
    await page.keyboard.press('Control+z');
    expect(await jobText(page)).toBe(first);
    await page.keyboard.press('Control+Shift+z');
    expect(await jobText(page)).toBe(nudged);
    await page.locator('#back').click();
    expect(await jobText(page)).toBe(first);
    expect(await page.locator('#forward').isEnabled()).toBe(true);
  });

  test('by keyboard: N sets one halfway to the next place, the arrows move it, Delete takes it out', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await grip(page, NAIL).focus();
    await page.keyboard.press('n');
    expect(await nails(page)).toMatch(/^\[\[12, 3 1\/4\], \[23, 3 1\/8\]\]$/);
    expect(await inHand(page)).toBe('edges.back[1].through[1]');
    await page.keyboard.press('ArrowRight');
    expect(await nails(page)).toContain('[23 1/32, 3 1/8]');
    await page.keyboard.press('Delete');
    expect(await nails(page)).toBe('[[12, 3 1/4]]');
    expect(await inHand(page)).toBe(NAIL);
    for (const _ of ['taken out', 'moved']) await page.keyboard.press('Control+z');
    expect(await nails(page)).toContain('[23, 3 1/8]');
  });

  test('by keyboard: the button sets one in the widest gap, its neighbour takes it out', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await set(page).focus();
    await page.keyboard.press('Enter');
    expect(await nails(page)).toContain('[23, 3 1/8]');
    await grip(page, 'edges.back[1].through[1]').focus();
    await out(page).focus();
    await page.keyboard.press('Enter');
    expect(await nails(page)).toBe('[[12, 3 1/4]]');
    expect(await inHand(page)).toBe(NAIL);
  });
});
