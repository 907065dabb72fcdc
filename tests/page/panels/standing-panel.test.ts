import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { test } from '../browser.ts';
import { openJobFile, rested } from '../on-page.ts';

test('a leg that stands is drawn on the floor, an upright part is not', async ({ openPage }) => {
  const { page } = await openPage();
  await rested(page);
  expect(await page.locator('#standing').isVisible()).toBe(false);
  await openJobFile(page);
  await page.locator('#job-text').fill(readFileSync('samples/hall-bench/leg.yaml', 'utf8'));
  await page.locator('#standing svg').waitFor();
  expect(await page.locator('#standing text').allTextContents()).toEqual(
    expect.arrayContaining(['from the front', 'from the side', '“outer” toward you']),
  );
  // The floor, and each view with its plumb line.
  expect(await page.locator('#standing path').count()).toBe(5);
  expect(await page.locator('#standing .plumb').count()).toBe(2);
});
