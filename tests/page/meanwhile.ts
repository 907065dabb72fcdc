import type { Browser, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import {
  begin,
  drawn,
  jobText,
  middleOf,
  NAIL,
  openJobFile,
  openPage,
  rested,
  takeHold,
  typeStation,
} from './browser.ts';

const inHand = (page: Page): Promise<unknown> => page.evaluate('document.activeElement.textContent');

export function meanwhileTests(browser: () => Browser): void {
  describe('while something else goes on', () => {
    test('a line that has the keyboard keeps it as the part changes, and shows where its place is by now', async () => {
      const { page } = await openPage(browser());
      await typeStation(page, '13');
      await page.getByText('check a sawn part').click();
      await page.locator('#readings').fill('18, 3');
      await page.locator('#beside-kinds label', { hasText: 'arc' }).click();
      const ring = () => page.locator('.places .ring').getAttribute('cy');
      for (const [list, begins] of [
        ['#readings-said', /^station 18/],
        ['#beside-said', /^back: the arc/],
      ] as const) {
        const line = page.locator(`${list} button`).first();
        await line.focus();
        expect(await line.textContent()).toMatch(begins);
        const [words, place] = [await inHand(page), await ring()];
        await page.keyboard.press('Control+z');
        await expect.poll(() => inHand(page)).not.toBe(words);
        expect(await inHand(page)).toMatch(begins);
        expect(await ring()).not.toBe(place);
        await page.keyboard.press('Control+y');
        await rested(page);
      }
    });

    test('what is undone while the hand holds a point stays undone', async () => {
      const { page } = await openPage(browser());
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

    test('one of our parts that is undone can be chosen anew', async () => {
      const { page } = await openPage(browser());
      const [parts, name] = [page.locator('#samples'), page.locator('#name')];
      await parts.focus();
      await parts.selectOption({ label: 'Garden arch rail' });
      await page.keyboard.press('Control+z');
      expect(await name.textContent()).toBe('Hall bench leg');
      await parts.evaluate((list) => list.dispatchEvent(new Event('change')));
      expect(await name.textContent()).toBe('Hall bench leg');
      expect(await parts.inputValue()).toBe('');
    });

    test('after an undo who types in the job goes on where it was, not at the end of the text', async () => {
      const { page } = await openPage(browser());
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

    test('where a nail would stand is not shown any more once the part is another', async () => {
      const { page } = await openPage(browser());
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

    test('looking nearer does not make a point jump in the hand', async () => {
      const { page } = await openPage(browser());
      await openJobFile(page);
      const { x, y } = await takeHold(page, 80);
      const before = await jobText(page);
      await page.keyboard.down('Control');
      await page.mouse.wheel(0, -200);
      await page.keyboard.up('Control');
      await page.mouse.move(x + 80.5, y);
      await page.mouse.move(x + 80, y);
      await drawn(page);
      expect(await jobText(page)).toBe(before);
      await page.mouse.up();
    });

    test('a second finger on the sheet sets no nail', async () => {
      const { page } = await openPage(browser(), { hasTouch: true, viewport: { width: 820, height: 1180 } });
      const before = await jobText(page);
      const { x, y } = await middleOf(page, 'edges.front[0].from');
      const there = await middleOf(page, 'edges.front[1].line');
      const sheet = (await page.locator('#drawing').boundingBox())!;
      await page.locator('#nail-set').click();
      const touch = await page.context().newCDPSession(page);
      const send = (type: string, touchPoints: { x: number; y: number }[]) =>
        touch.send('Input.dispatchTouchEvent', { type: type as 'touchStart', touchPoints });
      const bare = { x: sheet.x + sheet.width / 2, y: sheet.y + 20 };
      // On the back, over its nail's neighbourhood: a third of the way along.
      const nail = await middleOf(page, NAIL);
      const onLine = { x: nail.x + (there.x - x) / 10, y: nail.y };
      expect(Math.abs(y - there.y)).toBeLessThan(1);
      await send('touchStart', [bare]);
      await send('touchStart', [bare, onLine]);
      await send('touchEnd', []);
      expect(await jobText(page)).toBe(before);
      expect(await page.locator('.grip.nail').count()).toBe(1);
    });

    test('readings stay those of their part and edge, and Ctrl Z in them is theirs', async () => {
      const { page } = await openPage(browser());
      await page.getByText('check a sawn part').click();
      const [readings, edge] = [page.locator('#readings'), page.locator('#readings-edge')];
      await typeStation(page, '13');
      const mine = await jobText(page);
      await readings.click();
      await page.keyboard.type('18, 3');
      await edge.selectOption('front');
      await readings.press('Control+z');
      expect(await jobText(page)).toBe(mine);
      await readings.fill('18, 0');
      await begin(page, 'Garden arch rail');
      expect(await readings.inputValue()).toBe('');
      await readings.fill('100, 1');
      await page.locator('#back').click();
      await rested(page);
      await expect.poll(() => edge.inputValue()).toBe('front');
      expect(await readings.inputValue()).toBe('18, 0');
      // What was undone is gone with its readings: the next job is another.
      await begin(page, 'Wall shelf bracket');
      expect(await readings.inputValue()).toBe('');
    });

    test('words are moved within a field by the mouse', async () => {
      const { page } = await openPage(browser());
      await page.getByText('check a sawn part').click();
      const readings = page.locator('#readings');
      await readings.fill('18,3 and a half, the rest of it');
      const box = (await readings.boundingBox())!;
      const line = box.y + 20;
      await page.mouse.dblclick(box.x + 20, line);
      await page.mouse.move(box.x + 22, line);
      await page.mouse.down();
      await page.mouse.move(box.x + 120, line, { steps: 6 });
      await page.mouse.move(box.x + 240, line, { steps: 6 });
      await page.mouse.up();
      expect(await readings.inputValue()).not.toMatch(/^18,3/);
      expect(await readings.inputValue()).toMatch(/18/);
    });
  });
}
