import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { drag, jobText, middleOf, openJobFile } from './on-page.ts';

describe('a shoulder', () => {
  test('a shoulder stays square, dragged by a corner or typed, and is told from either side', async ({
    openPage,
  }) => {
    const { page, complaints } = await openPage();
    await openJobFile(page);
    const stepped = 'line: [30, 0]\n    - line: [30, 1/4]\n    - line: [34, 1/4]';
    const text = (await jobText(page)).replace('line: [34, 0]', stepped);
    await page.locator('#job-text').fill(text);
    const [outer, inner] = ['edges.front[1].line', 'edges.front[2].line'] as const;
    const before = await middleOf(page, inner);
    await drag(page, outer, -before.x / 20, 0);
    const [moved, beside] = [await middleOf(page, outer), await middleOf(page, inner)];
    expect(moved.x).toBeLessThan(before.x - 5);
    expect(beside.x).toBeCloseTo(moved.x, 3);
    await page.mouse.up();
    const field = page.getByLabel('front, join 2: station, in');
    await field.fill('29');
    await field.press('Enter');
    expect(await jobText(page)).toBe(text.replace('[30, 0]', '[29, 0]').replace('[30, 1/4]', '[29, 1/4]'));
    await drag(page, inner, 20 * (before.x / 20), 0);
    expect(await page.locator('#faults').textContent()).toContain('Make each station larger');
    await page.mouse.up();
    expect(await jobText(page)).toContain('line: [29, 1/4]');
    await page.evaluate("document.getElementById('offsets-panel').open = true");
    const rows = page.locator('#offsets tr', { hasText: 'of the shoulder' });
    await rows.nth(1).waitFor();
    expect(await rows.allTextContents()).toEqual([
      '29, left of the shoulder0',
      '29, right of the shoulder1⁄4',
    ]);
    expect(complaints).toEqual([]);
  });
});
