import type { FileChooser } from 'playwright-core';
import { describe, expect } from 'vitest';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { SAMPLES, sampleText } from '../../part/jobs.ts';
import { test } from '../browser.ts';
import { begin, downloaded, jobText, openJobFile } from '../on-page.ts';
import { answer, openSlowly, SLOW_FILE } from '../slow-file.ts';

describe('files', () => {
  test('a job is opened, changed, saved, and reads as it lies on the bench', async ({ openPage }) => {
    const { page } = await openPage();
    const choosers: FileChooser[] = [];
    const keep = (chooser: FileChooser): void => void choosers.push(chooser);
    page.on('filechooser', keep);
    // The browser may open its own dialog, which nobody sees here, until it knows that it is to hand it over.
    await expect
      .poll(
        async () => {
          await page.getByText('Open', { exact: true }).click();
          await page.waitForTimeout(300);
          return choosers.length;
        },
        { timeout: 10_000 },
      )
      .toBeGreaterThan(0);
    page.off('filechooser', keep);
    const [chooser] = choosers;
    const text = sampleText('hall-bench-stretcher.yaml');
    await chooser!.setFiles({
      name: 'my-stretcher.yaml',
      mimeType: 'text/yaml',
      buffer: Buffer.from(text),
    });
    await page.getByRole('heading', { name: 'Hall bench stretcher' }).waitFor();
    const rise = page.getByLabel('upper, apex: rise, in');
    await rise.fill('1');
    await rise.press('Enter');
    const saved = await downloaded(page, () => page.getByText('Save', { exact: true }).click());
    expect(saved.name).toBe('my-stretcher.yaml');
    expect(saved.bytes.toString()).toBe(text.replace('rise: 7/8', 'rise: 1'));
  });

  test('every sample is built in and makes its part', async ({ openPage }) => {
    const { page, complaints } = await openPage();
    expect(await jobText(page)).toBe(sampleText('hall-bench-leg.yaml'));
    for (const text of SAMPLES.map(sampleText)) {
      await begin(page, parseJob(text).job.part);
      expect(await jobText(page)).toBe(text);
      expect(await page.locator('#faults li').count()).toBe(0);
    }
    expect(complaints).toEqual([]);
  });

  test('a job whose lines end as on Windows is saved so, typed into or not', async ({ openPage }) => {
    const { page } = await openPage({}, SLOW_FILE);
    await openSlowly(page);
    const text = sampleText('hall-bench-leg.yaml').replaceAll('\n', '\r\n');
    await answer(page, text);
    await openJobFile(page);
    const field = page.locator('#job-text');
    await field.focus();
    await page.keyboard.press('Control+Home');
    await page.keyboard.type('# mine');
    await page.keyboard.press('Enter');
    await page.evaluate(`delete window.showSaveFilePicker`);
    const saved = await downloaded(page, () => page.getByText('Save', { exact: true }).click());
    expect(saved.bytes.toString()).toBe(`# mine\r\n${text}`);
  });
});
