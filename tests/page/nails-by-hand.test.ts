import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { besideLine, inHand, nails, out, set } from './nails.ts';
import { grip, jobText, middleOf, NAIL, openJobFile, typeStation } from './on-page.ts';

describe('nails on the drawing', () => {
  test('by mouse: one is set where the line is touched, the rest of the text as it was, undone in one step', async ({
    openPage,
  }) => {
    const { page, complaints } = await openPage();
    const before = await jobText(page);
    await set(page).click();
    expect(await set(page).getAttribute('aria-pressed')).toBe('true');
    const { x, y } = await besideLine(page);
    await page.mouse.move(x, y);
    expect(await page.locator('.setting text').textContent()).toMatch(/^nail 2\d/);
    await page.mouse.click(x, y);
    expect(await nails(page)).toMatch(/^\[\[12, 3 1\/4\], \[2\d[ \d/]*, [23][ \d/]*\]\]$/);
    expect((await jobText(page)).replace(/through: .*? *#/, '')).toBe(before.replace(/through: .*? *#/, ''));
    expect(await set(page).getAttribute('aria-pressed')).toBe('false');
    expect(await grip(page, 'edges.back[1].through[1]').getAttribute('aria-label')).toBe('back, nail 2');
    await page.locator('#back').click();
    expect(await jobText(page)).toBe(before);
    expect(await page.locator('#back').isDisabled()).toBe(true);
    expect(complaints).toEqual([]);
  });

  test('by mouse: it moves on with the hand that set it, all in one step; Escape takes it away', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await openJobFile(page);
    const before = await jobText(page);
    const { x, y } = await besideLine(page);
    // Another grip is in hand before.
    await grip(page, NAIL).focus();
    for (const end of ['mouse', 'Escape'] as const) {
      await set(page).click();
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 60, y - 10, { steps: 4 });
      await page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');
      expect(await nails(page)).toMatch(/\[2[45]/);
      if (end === 'Escape') await page.keyboard.press('Escape');
      await page.mouse.up();
      if (end === 'mouse') await page.locator('#back').click();
      expect(await jobText(page)).toBe(before);
    }
  });

  test('by mouse: the one in hand is taken out, and the one beside it comes to hand', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    expect(await out(page).isVisible()).toBe(false);
    await set(page).click();
    const { x, y } = await besideLine(page);
    await page.mouse.click(x, y);
    await page.mouse.click(...(Object.values(await middleOf(page, NAIL)) as [number, number]));
    await page.getByRole('button', { name: 'Remove: back, nail 1' }).click();
    expect(await nails(page)).toMatch(/^\[\[2\d[ \d/]*, [23][ \d/]*\]\]$/);
    expect(await inHand(page)).toBe(NAIL);
    await page.locator('#back').click();
    expect(await nails(page)).toContain('[12, 3 1/4], [');
  });

  test('by finger: one is set, and taken out again', async ({ openPage }) => {
    const { page } = await openPage({ hasTouch: true, viewport: { width: 390, height: 844 } });
    await set(page).tap();
    const { x, y } = await besideLine(page);
    await page.touchscreen.tap(x, y);
    expect(await nails(page)).toMatch(/^\[\[12, 3 1\/4\], \[2\d/);
    await out(page).tap();
    expect(await nails(page)).toBe('[[12, 3 1/4]]');
  });

  test('where a nail would stand is not shown any more once the part is another', async ({ openPage }) => {
    const { page } = await openPage();
    await typeStation(page, '13');
    await page.locator('#nail-set').click();
    const { x, y } = await middleOf(page, NAIL);
    await page.mouse.move(x + 60, y);
    const ghost = page.locator('.setting circle');
    expect(await ghost.getAttribute('visibility')).toBe('visible');
    // Without the mouse's moving.
    await page.locator('#back').dispatchEvent('click');
    expect(await ghost.getAttribute('visibility')).toBe('hidden');
  });
});
