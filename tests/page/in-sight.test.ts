import type { ViewportSize } from 'playwright-core';
import { expect } from 'vitest';
import { test } from './browser.ts';
import { begin } from './on-page.ts';
import { SCREENS } from './screens.ts';

test.for(['phone', 'tablet upright', 'tablet lying'] as const)(
  '%s: nothing lies over a grip of the bracket, and no words over its line',
  async (screen, { openPage }) => {
    const { page } = await openPage({ viewport: SCREENS[screen] });
    await begin(page, 'Wall shelf bracket');
    const covered = await page.evaluate(`
      [...document.querySelectorAll('.grip')].filter((grip) => {
        const { left, top, width, height } = grip.querySelector('.reach').getBoundingClientRect();
        return !document.elementFromPoint(left + width / 2, top + height / 2)?.closest('.grip');
      }).map((grip) => grip.dataset.key)`);
    expect(covered).toEqual([]);
    const crossed = await page.evaluate(`
      [...document.querySelectorAll('.apexes text')].filter((text) => text.textContent).flatMap((text) => {
        const { left, right, top, bottom } = text.getBoundingClientRect();
        return [...document.querySelectorAll('.lines .cut, .lines .saw')].flatMap((line) => {
          const matrix = line.getScreenCTM();
          const long = line.getTotalLength();
          return Array.from({ length: 2000 }, (_, i) => line.getPointAtLength((i / 2000) * long).matrixTransform(matrix))
            .filter(({ x, y }) => x > left && x < right && y > top + 3 && y < bottom - 3)
            .map(() => text.textContent);
        });
      })`);
    expect(crossed).toEqual([]);
  },
);

test.for<[string, ViewportSize]>([
  ['a phone that lies', { width: 844, height: 390 }],
  ['a laptop at 200 %', { width: 683, height: 384 }],
])('on %s the sheet and its buttons are in sight beside the notes', async ([, viewport], { openPage }) => {
  const { page } = await openPage({ viewport });
  const [sheet, notes] = [
    await page.locator('#sheet').boundingBox(),
    await page.locator('#notes').boundingBox(),
  ];
  expect(sheet!.y + sheet!.height).toBeLessThanOrEqual(viewport.height);
  expect(notes!.x).toBeGreaterThanOrEqual(sheet!.x + sheet!.width);
  expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true);
});

test.for(['Hall bench stretcher', 'Wall shelf bracket'])(
  'on a phone the words of what is in hand stand over it and inside the sheet: %s',
  async (name, { openPage }) => {
    const { page } = await openPage({ viewport: { width: 390, height: 844 } });
    await begin(page, name);
    const sheet = (await page.locator('#drawing').boundingBox())!;
    for (const grip of await page.locator('.grip').all()) {
      await grip.focus();
      const [words, place] = [
        (await page.locator('.notes text').boundingBox())!,
        (await grip.locator('path').boundingBox())!,
      ];
      expect(words.x).toBeGreaterThanOrEqual(sheet.x);
      expect(words.x + words.width).toBeLessThanOrEqual(sheet.x + sheet.width);
      expect(words.y + words.height).toBeLessThanOrEqual(place.y + place.height / 2);
    }
  },
);
