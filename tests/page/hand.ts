import type { Browser, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import {
  begin,
  drawn,
  figure,
  grip,
  jobText,
  middleOf,
  NAIL,
  openJobFile,
  openPage,
  rested,
} from './browser.ts';

const APEX = 'edges.upper[1].apex';

/** Pixels an inch: the leg's front edge is 34 in long. */
async function inch(page: Page): Promise<number> {
  const [from, to] = [
    await middleOf(page, 'edges.front[0].from'),
    await middleOf(page, 'edges.front[1].line'),
  ];
  return (to.x - from.x) / 34;
}

/** Takes hold of a grip and moves the mouse by so many pixels, without letting go. */
async function drag(page: Page, key: string, x: number, y: number): Promise<void> {
  const from = await middleOf(page, key);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + x, from.y + y, { steps: 6 });
  await drawn(page);
}

export function handTests(browser: () => Browser): void {
  describe('by hand', () => {
    test('the apex is dragged, and job, fields and figures say where it is', async () => {
      const { page, complaints } = await openPage(browser());
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

    test('the nail moves as far as the hand, in graduations, and everything else of the text stays', async () => {
      const { page } = await openPage(browser());
      const before = await jobText(page);
      await drag(page, NAIL, 3 * (await inch(page)), 0);
      await page.mouse.up();
      const after = await jobText(page);
      expect(after).toBe(before.replace('through: [12, 3 1/4]   ', 'through: [15, 3 1/4]   '));
    });

    test('where no part can be made the last line stays, faint, and the reason is said', async () => {
      const { page } = await openPage(browser());
      await drag(page, NAIL, -14 * (await inch(page)), 0);
      expect(await page.locator('.lines .faint').count()).toBe(1);
      expect(await page.locator('#faults').textContent()).toContain('Stations must grow');
      // And on the sheet, where the hand is.
      expect(await page.locator('#fault-said').textContent()).toContain('Stations must grow');
      // Spoken once the hand rests, and not with every move.
      await expect.poll(() => page.locator('#spoken').textContent()).toContain('Stations must grow');
      expect(await page.locator('#faults[aria-live], #fault-said[role]').count()).toBe(0);
      await page.mouse.up();
      expect(await page.locator('.faint').count()).toBe(0);
      expect(await page.locator('#faults li').count()).toBe(0);
      expect(await jobText(page)).toMatch(/through: \[\d/);
    });

    test('on a phone all of the reason can be read on the sheet', async () => {
      const { page } = await openPage(browser(), { viewport: { width: 390, height: 844 } });
      await drag(page, NAIL, 0, -8 * (await inch(page)));
      const said = page.locator('#fault-said');
      expect(await said.textContent()).toMatch(/the stock is 4.in\. Take stock .* or ease the edges\.$/);
      const [whole, seen] = (await page.evaluate(
        `(({ scrollHeight, clientHeight }) => [scrollHeight, clientHeight])(document.getElementById('fault-said'))`,
      )) as [number, number];
      expect(whole).toBeLessThanOrEqual(seen);
      await page.mouse.up();
    });

    test('Escape puts back what is in hand', async () => {
      const { page } = await openPage(browser());
      await openJobFile(page);
      const before = await jobText(page);
      await drag(page, NAIL, 100, -40);
      expect(await jobText(page)).not.toBe(before);
      await page.keyboard.press('Escape');
      expect(await jobText(page)).toBe(before);
      await page.mouse.up();
      expect(await page.locator('#back').isDisabled()).toBe(true);
    });

    test('a square end takes the other edge along', async () => {
      const { page } = await openPage(browser());
      await drag(page, 'edges.back[1].batten', -2 * (await inch(page)), 0);
      await page.mouse.up();
      const text = await jobText(page);
      expect(text).toContain('line: [32, 0]');
      expect(text).toContain('batten: [32, 2]');
    });

    test('a wheel moves the page, and with ctrl it looks nearer', async () => {
      const { page } = await openPage(browser(), { viewport: { width: 1366, height: 600 } });
      const { x, y } = await middleOf(page, NAIL);
      const before = await inch(page);
      await page.mouse.move(x, y + 20);
      await page.mouse.wheel(0, 200);
      await expect.poll(() => page.evaluate('scrollY')).toBeGreaterThan(0);
      expect(await inch(page)).toBeCloseTo(before, 6);
      await page.keyboard.down('Control');
      await page.mouse.wheel(0, -200);
      await page.keyboard.up('Control');
      await expect.poll(() => inch(page)).toBeGreaterThan(before * 1.2);
    });

    test('a shoulder stays square, dragged by a corner or typed, and is told from either side', async () => {
      const { page, complaints } = await openPage(browser());
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
      expect(await page.locator('#faults').textContent()).toContain('Stations must grow');
      await page.mouse.up();
      expect(await jobText(page)).toContain('line: [29, 1/4]');
      await page.evaluate("document.getElementById('offsets-panel').open = true");
      const rows = page.locator('#offsets tr', { hasText: 'of shoulder' });
      await rows.nth(1).waitFor();
      expect(await rows.allTextContents()).toEqual(['29, left of shoulder0', '29, right of shoulder1⁄4']);
      expect(complaints).toEqual([]);
    });

    test('a finger moves a point, and two fingers look nearer', async () => {
      const { page } = await openPage(browser(), {
        hasTouch: true,
        viewport: { width: 820, height: 1180 },
      });
      const touch = await page.context().newCDPSession(page);
      const send = (type: string, touchPoints: { x: number; y: number }[]) =>
        touch.send('Input.dispatchTouchEvent', { type: type as 'touchStart', touchPoints });
      const at = await middleOf(page, NAIL);
      const scale = await inch(page);
      await send('touchStart', [{ x: at.x + 12, y: at.y - 12 }]);
      for (let i = 1; i <= 4; i++)
        await send('touchMove', [{ x: at.x + 12 + (i / 4) * 2 * scale, y: at.y - 12 }]);
      await send('touchEnd', []);
      await rested(page);
      expect(await jobText(page)).toContain('through: [14, 3 1/4]');
      const { y } = (await page.locator('#drawing').boundingBox())!;
      await send('touchStart', [
        { x: 300, y: y + 60 },
        { x: 400, y: y + 60 },
      ]);
      await send('touchMove', [
        { x: 250, y: y + 60 },
        { x: 450, y: y + 60 },
      ]);
      await send('touchEnd', []);
      expect(await inch(page)).toBeCloseTo(2 * scale, 0);
    });
  });

  describe('by keyboard alone', () => {
    test('tab to a point, arrows by a graduation, shift for ten, Escape takes it back', async () => {
      const { page } = await openPage(browser());
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

    test('steps go back and forward, and a burst of nudges is one step', async () => {
      const { page } = await openPage(browser());
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
  });
}
