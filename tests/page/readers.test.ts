import axe from 'axe-core';
import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { begin, rested } from './on-page.ts';
import { layOpen, SCHEMES } from './screens.ts';

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations: found } = (await page.evaluate(`axe.run({ resultTypes: ['violations'] })`)) as {
    violations: Violation[];
  };
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`),
  );
}

describe('for every reader', () => {
  test('axe finds nothing wrong, light or dark', async ({ openPage }) => {
    const { page } = await openPage();
    await begin(page, 'Wall shelf bracket');
    await layOpen(page);
    await page.getByLabel('inches').check();
    await rested(page);
    for (const colorScheme of SCHEMES) {
      await page.emulateMedia({ colorScheme });
      expect(await violations(page), colorScheme).toEqual([]);
    }
  });

  test('axe finds nothing wrong where the job has mistakes', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByText('the job file').click();
    await page.locator('#job-text').fill('part: x');
    expect(await violations(page)).toEqual([]);
  });

  test('the light is switched by hand, too', async ({ openPage }) => {
    const { page } = await openPage({ colorScheme: 'light' });
    const ground = () => page.evaluate('getComputedStyle(document.documentElement).backgroundColor');
    const light = await ground();
    await page.getByLabel('light').selectOption('dark');
    await expect.poll(ground).not.toBe(light);
    await page.reload();
    await expect.poll(ground).not.toBe(light);
  });

  test('once the hand rests, what has come of it is spoken', async ({ openPage }) => {
    const { page } = await openPage();
    await page.locator('[data-key="edges.back[1].through[0]"]').focus();
    await page.keyboard.press('ArrowUp');
    await rested(page);
    expect(await page.locator('#spoken').textContent()).toMatch(/^apex at .*; 4 sheets of letter$/);
  });
});

test('nothing is asked of any network, whatever is done', async ({ openPage }) => {
  const { page, requests, complaints } = await openPage();
  await layOpen(page);
  await page.getByText('The pattern, full size').click();
  await page.getByText('is in your Downloads folder').waitFor();
  expect(requests.filter((url) => !/^(file|blob|data):/.test(url))).toEqual([]);
  expect(complaints).toEqual([]);
});
