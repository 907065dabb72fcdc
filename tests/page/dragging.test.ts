import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { begin, drag, figure, inch, jobText, middleOf, NAIL, openJobFile, rested } from './on-page.ts';

const APEX = 'edges.upper[1].apex';

describe('a place dragged by hand', () => {
  test('the apex is dragged, and job, fields and figures say where it is', async ({ openPage }) => {
    const { page, complaints } = await openPage();
    await begin(page, 'Garden arch rail');
    const scale =
      (await middleOf(page, 'edges.lower[1].batten')).x - (await middleOf(page, 'edges.lower[0].from')).x;
    await drag(page, APEX, (-60 / 1860) * scale, (-10 / 1860) * scale);
    await page.mouse.up();
    await rested(page);
    const [, station = '', offset = ''] = /apex: \[(\d+), (2\d+)\]/.exec(await jobText(page)) ?? [];
    expect(Math.abs(Number(station) - 870)).toBeLessThanOrEqual(2);
    expect(Math.abs(Number(offset) - 250)).toBeLessThanOrEqual(2);
    expect(await figure(page, 'upper, apex')).toBe(`station ${station}, offset ${offset}`);
    expect(await page.getByLabel('upper, apex: station, mm').inputValue()).toBe(station);
    expect(complaints).toEqual([]);
  });

  test('the nail moves as far as the hand, in graduations, and everything else of the text stays', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    const before = await jobText(page);
    await drag(page, NAIL, 3 * (await inch(page)), 0);
    await page.mouse.up();
    const after = await jobText(page);
    expect(after).toBe(before.replace('through: [12, 3 1/4]   ', 'through: [15, 3 1/4]   '));
  });

  test('where no part can be made the last line stays, faint, and the reason is said', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await drag(page, NAIL, -14 * (await inch(page)), 0);
    expect(await page.locator('.lines .faint').count()).toBe(1);
    expect(await page.locator('#faults').textContent()).toContain('Make each station larger');
    // And on the sheet, where the hand is.
    expect(await page.locator('#fault-said').textContent()).toContain('Make each station larger');
    // Spoken once the hand rests, and not with every move.
    await expect.poll(() => page.locator('#spoken').textContent()).toContain('Make each station larger');
    expect(await page.locator('#faults[aria-live], #fault-said[role]').count()).toBe(0);
    await page.mouse.up();
    expect(await page.locator('.faint').count()).toBe(0);
    expect(await page.locator('#faults li').count()).toBe(0);
    expect(await jobText(page)).toMatch(/through: \[\d/);
  });

  test('on a phone all of the reason can be read on the sheet', async ({ openPage }) => {
    const { page } = await openPage({ viewport: { width: 390, height: 844 } });
    await drag(page, NAIL, 0, -8 * (await inch(page)));
    const said = page.locator('#fault-said');
    expect(await said.textContent()).toMatch(/the stock is 4″\. .* or make the part narrower\.$/);
    const [whole, seen] = (await page.evaluate(
      `(({ scrollHeight, clientHeight }) => [scrollHeight, clientHeight])(document.getElementById('fault-said'))`,
    )) as [number, number];
    expect(whole).toBeLessThanOrEqual(seen);
    await page.mouse.up();
  });

  test('Escape puts back what is in hand', async ({ openPage }) => {
    const { page } = await openPage();
    await openJobFile(page);
    const before = await jobText(page);
    await drag(page, NAIL, 100, -40);
    expect(await jobText(page)).not.toBe(before);
    await page.keyboard.press('Escape');
    expect(await jobText(page)).toBe(before);
    await page.mouse.up();
    expect(await page.locator('#back').isDisabled()).toBe(true);
  });

  test('a square end takes the other edge along', async ({ openPage }) => {
    const { page } = await openPage();
    await drag(page, 'edges.back[1].batten', -2 * (await inch(page)), 0);
    await page.mouse.up();
    const text = await jobText(page);
    expect(text).toContain('line: [32, 0]');
    expect(text).toContain('batten: [32, 2]');
  });
});
