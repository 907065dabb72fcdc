import { describe, expect } from 'vitest';
import { sampleText } from '../part/jobs.ts';
import { test } from './browser.ts';
import { figure, jobText, rested, STATION } from './on-page.ts';

describe('lengths', () => {
  test('are typed as on a rule, in any unit', async ({ openPage }) => {
    const { page } = await openPage();
    const field = page.getByLabel(STATION);
    await field.fill("1' 1 1/2");
    await field.press('Enter');
    expect(await jobText(page)).toContain(`through: [1' 1 1/2, 3 1/4]`);
    await page.getByText('mm', { exact: true }).click();
    const inMm = page.getByLabel('back, nail: station, mm');
    expect(await inMm.inputValue()).toBe('343');
    await inMm.fill('350');
    await inMm.press('Enter');
    expect(await jobText(page)).toContain('through: [350 mm, 3 1/4]');
  });

  test('that make no part are told beside the field, and the part stays', async ({ openPage }) => {
    const { page } = await openPage();
    const before = await jobText(page);
    const field = page.getByLabel(STATION);
    for (const [typed, said] of [
      ['40', 'is not before the end'],
      ['12,5', 'has a comma'],
    ] as const) {
      await field.fill(typed);
      await field.press('Enter');
      expect(await page.locator('.wrong:not(:empty)').textContent()).toContain(said);
      expect(await field.getAttribute('aria-invalid')).toBe('true');
    }
    await field.press('Escape');
    expect(await field.inputValue()).toBe('12');
    expect(await jobText(page)).toBe(before);
  });

  test('typed wrong, give way once the place is moved by hand, and the field says what it is for', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    const field = page.getByLabel(STATION);
    await field.fill('');
    await field.press('Enter');
    expect(await field.getAttribute('placeholder')).toBe('station');
    expect(await page.locator('.wrong:not(:empty)').count()).toBe(1);
    await page.locator('[data-key="edges.back[1].through[0]"]').focus();
    expect(await field.inputValue()).toBe('');
    await page.keyboard.press('ArrowRight');
    expect(await field.inputValue()).toBe('12 1/32');
    expect(await page.locator('.wrong:not(:empty)').count()).toBe(0);
    await field.fill('x');
    await field.press('Enter');
    await field.fill('12 1/32');
    await field.press('Enter');
    expect(await page.locator('.wrong:not(:empty)').count()).toBe(0);
  });

  test('that make the part longer than the sheet have it drawn smaller', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByText('the job file').click();
    const text = await jobText(page);
    await page
      .locator('#job-text')
      .fill(
        text.replaceAll('[34,', '[68,').replace('length: 36', 'length: 70').replace('width: 4', 'width: 8'),
      );
    await rested(page);
    await expect
      .poll(async () => (await page.locator('[data-key="edges.back[1].batten"]').boundingBox())!.x)
      .toBeLessThan(1280 - 40);
  });

  test('show in the unit of the job once its text has another', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByText('the job file').click();
    await page.locator('#job-text').fill(sampleText('garden-arch-rail.yaml'));
    expect(await page.getByLabel('mm', { exact: true }).isChecked()).toBe(true);
    expect(await page.locator('.rules text').last().textContent()).toBe('mm');
    await page.getByText('inches', { exact: true }).click();
    expect(await page.locator('.rules text').last().textContent()).toBe('in');
    // And the page is laid out for a part of another shape.
    const isLong = () => page.evaluate("document.documentElement.classList.contains('long')");
    expect(await isLong()).toBe(true);
    await page.locator('#job-text').fill(sampleText('wall-shelf-bracket.yaml'));
    await expect.poll(isLong).toBe(false);
  });

  test('show in the other unit without changing the part', async ({ openPage }) => {
    const { page } = await openPage();
    const before = await jobText(page);
    expect(await figure(page, 'least width')).toBe('1 5/8″ at station 0');
    await page.getByText('mm', { exact: true }).click();
    await rested(page);
    expect(await figure(page, 'least width')).toBe('41.5 mm scant at station 0');
    expect(await jobText(page)).toBe(before);
  });
});
