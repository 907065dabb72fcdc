import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { root } from '../../cli/run.ts';
import { test } from '../browser.ts';
import { begin, rested } from '../on-page.ts';

test('where ends lean a grip past the cut is tied to the end of its line', async ({ openPage }) => {
  const { page } = await openPage();
  const ties = (): Promise<string | null> => page.locator('.lines .beyond').getAttribute('d');
  expect(await ties()).toBe('');
  await page.getByText('the job file').click();
  const job = readFileSync(join(root, 'samples', 'hall-bench', 'end-rail.yaml'), 'utf8');
  await page.locator('#job-text').fill(job);
  await rested(page);
  // Both upper corners: 4 in up at 4 degrees the cut stands so far inside the long points.
  const inside = 4 * 25.4 * Math.tan((4 * Math.PI) / 180);
  const [from, to] = [...(await ties())!.matchAll(/M([\d.]+) -101\.6L([\d.]+) -101\.6/g)];
  expect([Number(from![1]), Number(from![2])]).toEqual([expect.closeTo(inside, 2), 0]);
  expect([Number(to![1]), Number(to![2])]).toEqual([expect.closeTo(330.2 - inside, 2), 330.2]);
});

test.for([1366, 820, 390])(
  '%i px wide: the starter’s apex words stand under their tick',
  async (width, { openPage }) => {
    const { page } = await openPage({ viewport: { width, height: 844 } });
    await begin(page, 'A new part with every key explained');
    const [tick, words] = [
      (await page.locator('.apexes path').boundingBox())!,
      (await page.locator('.apexes text').boundingBox())!,
    ];
    expect(Math.abs(words.y - tick.y - tick.height)).toBeLessThanOrEqual(10);
  },
);

test('on paper the page says that it is not the pattern', async ({ openPage }) => {
  const { page } = await openPage();
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('#on-paper').isVisible()).toBe(true);
  await page.emulateMedia({ media: null });
  expect(await page.locator('#on-paper').isVisible()).toBe(false);
});

test('who has chosen colours for everything sees the line in them', async ({ openPage }) => {
  const { page } = await openPage();
  await page.getByLabel('light').selectOption('light');
  await page.emulateMedia({ forcedColors: 'active', colorScheme: 'dark' });
  const [line, ground] = (await page.evaluate(`
    [getComputedStyle(document.querySelector('.lines .cut')).stroke, getComputedStyle(document.getElementById('sheet')).backgroundColor]`)) as string[];
  await page.emulateMedia({ forcedColors: null });
  expect([line, ground]).toEqual(['rgb(255, 255, 255)', 'rgb(0, 0, 0)']);
});
