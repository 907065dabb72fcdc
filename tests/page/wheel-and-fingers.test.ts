import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { drawn, inch, jobText, middleOf, NAIL, openJobFile, rested, takeHold } from './on-page.ts';

describe('wheel and fingers', () => {
  test('a wheel moves the page, and with ctrl it looks nearer', async ({ openPage }) => {
    const { page } = await openPage({ viewport: { width: 1366, height: 600 } });
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

  test('a finger moves a point, and two fingers look nearer', async ({ openPage }) => {
    const { page } = await openPage({
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

  test('looking nearer does not make a point jump in the hand', async ({ openPage }) => {
    const { page } = await openPage();
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

  test('a second finger on the sheet sets no nail', async ({ openPage }) => {
    const { page } = await openPage({ hasTouch: true, viewport: { width: 820, height: 1180 } });
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
});
