import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { jobText } from './on-page.ts';

describe('the job file', () => {
  test('ten megabytes pasted are refused in a moment, into the job or among the readings', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await page.getByText('the job file').click();
    await page.getByText('check a sawn part').click();
    const [job, readings] = [page.locator('#job-text'), page.locator('#readings')];
    const before = await jobText(page);
    await readings.fill('18, 3');
    await page.evaluate(`document.addEventListener('copy', (event) => {
      event.clipboardData.setData('text/plain', 'a: b\\n'.repeat(2_000_000));
      event.preventDefault();
    })`);
    for (const field of [job, readings]) {
      await field.selectText();
      for (const key of ['c', 'v']) await page.keyboard.press(`Control+${key}`);
    }
    const said = page.locator('#readings-said li');
    const refused = 'longer than 64 kB, which is too long for readings.';
    await expect.poll(() => said.first().textContent()).toContain(refused);
    expect(await page.locator('#faults').textContent()).toContain(
      'longer than 64 kB, and a job is a page or two.',
    );
    // The readings that stand in the field are compared anew, as after every rest: what was refused is still told.
    await page.getByText('mm', { exact: true }).click();
    await expect.poll(() => said.last().textContent()).toContain('mm');
    expect(await said.first().textContent()).toContain(refused);
    expect(await jobText(page)).toBe(before);
    expect(await readings.inputValue()).toBe('18, 3');
    await readings.fill('18, 3 1/4');
    expect(await said.filter({ hasText: '64 kB' }).count()).toBe(0);
  });

  test('of more mistakes than anyone mends at a time the rest are counted', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByText('the job file').click();
    await page.locator('#job-text').fill('a:\n'.repeat(200));
    expect(await page.locator('#faults button').count()).toBe(20);
    expect(await page.locator('#faults li').last().textContent()).toMatch(/^and 1\d\d more$/);
  });

  test('is edited beside the drawing; a mistake is told at its line with its cure', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByText('the job file').click();
    const text = await jobText(page);
    await page.locator('#job-text').fill(text.replace('[34, 2]', '[34, 2x]'));
    const line = text.split('\n').findIndex((each) => each.includes('batten: [34, 2]')) + 1;
    const told = page.locator('#faults button');
    expect(await told.textContent()).toMatch(
      new RegExp(`^line ${line}: edges.back\\[1\\].batten\\[1\\]: .* Use `),
    );
    expect(await page.locator('#job-lines').textContent()).toContain(`▸ ${line}`);
    await told.click();
    expect(await page.evaluate('getSelection().toString()')).toContain('2x');
    await page.locator('#job-text').fill(text.replace('[34, 2]', '[34, 2 1/2]'));
    expect(await told.count()).toBe(0);
    expect(await page.getByLabel('back, right end: offset, in').inputValue()).toBe('2 1/2');
    for (const _ of ['the right one', 'the wrong one']) await page.locator('#back').click();
    expect(await jobText(page)).toBe(text);
  });
});
