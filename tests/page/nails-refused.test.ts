import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { END, faults, set } from './nails.ts';
import { begin, grip, jobText, middleOf, NAIL, rested } from './on-page.ts';

describe('nails that cannot be', () => {
  test('what cannot be is said where mistakes are told, and the part stays', async ({ openPage }) => {
    const { page } = await openPage();
    const before = await jobText(page);
    const at = async (key: string): Promise<void> => {
      const { x, y } = await middleOf(page, key);
      await set(page).click();
      await page.mouse.click(x, y);
    };
    await at(NAIL);
    expect(await faults(page)).toMatch(/the same point|is not past/);
    await page.keyboard.press('Escape');
    await at('edges.front[1].line');
    expect(await faults(page)).toContain('a line has no nails');
    await page.keyboard.press('Escape');
    await grip(page, NAIL).focus();
    await page.keyboard.press('Delete');
    expect(await faults(page)).toContain('Add another one');
    await grip(page, END).focus();
    await page.keyboard.press('Delete');
    expect(await faults(page)).toContain('only nails of a batten and points of a spline');
    expect(await page.locator('.faint').count()).toBe(0);
    expect(await jobText(page)).toBe(before);
    await page.keyboard.press('ArrowLeft');
    expect(await page.locator('#faults li').count()).toBe(0);
  });

  test('two hundred are the most', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByText('the job file').click();
    const many = Array.from({ length: 200 }, (_, i) => `[${(i + 1) * 5}, 0]`).join(', ');
    const job = `part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - batten: [1100, 0]\n      through: [${many}]\n`;
    await page.locator('#job-text').fill(job);
    await grip(page, 'edges.top[1].through[199]').focus();
    await page.keyboard.press('n');
    expect(await faults(page)).toContain('Use 200 or fewer');
    expect(await jobText(page)).toBe(job);
  });

  test('a part that takes none says why; a spline takes pins', async ({ openPage }) => {
    const { page } = await openPage();
    await set(page).click();
    await begin(page, 'Garden arch rail');
    expect(await set(page).getAttribute('aria-pressed')).toBe('false');
    await set(page).click();
    expect(await faults(page)).toContain('write "through" instead of "apex"');
    expect(await set(page).getAttribute('aria-pressed')).toBe('false');
    await begin(page, 'Wall shelf bracket');
    const pins = (text: string): number => text.match(/through: .*/)?.[0].match(/\[\d/g)?.length ?? 0;
    const before = pins(await jobText(page));
    await page.getByRole('button', { name: 'Add a point' }).focus();
    await page.keyboard.press('Enter');
    await rested(page);
    expect(pins(await jobText(page))).toBe(before + 1);
  });
});
