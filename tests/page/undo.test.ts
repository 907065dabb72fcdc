import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { drawn, jobText, openJobFile, takeHold, typeStation } from './on-page.ts';

describe('what is undone', () => {
  test('what is undone while the hand holds a point stays undone', async ({ openPage }) => {
    const { page } = await openPage();
    const first = await jobText(page);
    await typeStation(page, '13');
    const { x, y } = await takeHold(page, 60);
    await page.keyboard.press('Control+z');
    await page.mouse.move(x + 90, y);
    await drawn(page);
    await page.mouse.up();
    expect(await jobText(page)).toBe(first);
    await page.locator('#forward').click();
    expect(await jobText(page)).toBe(first.replace('[12, 3 1/4]', '[13, 3 1/4]'));
  });

  test('one of our parts that is undone can be chosen anew', async ({ openPage }) => {
    const { page } = await openPage();
    const [parts, name] = [page.locator('#samples'), page.locator('#name')];
    await parts.focus();
    await parts.selectOption({ label: 'Garden arch rail' });
    await page.keyboard.press('Control+z');
    expect(await name.textContent()).toBe('Hall bench leg');
    await parts.evaluate((list) => list.dispatchEvent(new Event('change')));
    expect(await name.textContent()).toBe('Hall bench leg');
    expect(await parts.inputValue()).toBe('');
  });

  test('after an undo who types in the job goes on where it was, not at the end of the text', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await openJobFile(page);
    const text = await jobText(page);
    await page.locator('#job-text').focus();
    await page.keyboard.press('Control+Home');
    await page.keyboard.type('# one');
    await page.keyboard.press('Control+z');
    expect(await jobText(page)).toBe(text);
    await page.keyboard.type('# two');
    expect(await jobText(page)).toBe(`# two${text}`);
  });
});
