import { describe, expect } from 'vitest';
import { test } from './browser.ts';
import { jobText } from './on-page.ts';
import { answer, openSlowly, SLOW_FILE } from './slow-file.ts';

describe('files that are refused', () => {
  test('a file too long to be a job is refused, as only its beginning was read', async ({ openPage }) => {
    const { page } = await openPage({}, SLOW_FILE);
    await openSlowly(page);
    const before = await jobText(page);
    await answer(page, '# a remark\n'.repeat(5000));
    await expect
      .poll(() => page.locator('#faults').textContent())
      .toContain('mine.yaml: this text has more than 4000 lines');
    expect(await jobText(page)).toBe(before);
  });

  test('a file in another coding is refused: letters that were not read must not be saved over it', async ({
    openPage,
  }) => {
    const { page } = await openPage({}, SLOW_FILE);
    await openSlowly(page);
    const before = await jobText(page);
    // "für" as ISO 8859-1 has it, in the second line.
    await page.evaluate('answer(new Uint8Array([35, 10, 35, 32, 0x66, 0xfc, 0x72, 10]))');
    await expect
      .poll(() => page.locator('#faults').textContent())
      .toBe('mine.yaml, line 2: this character is not plain text. Save the job as plain text (UTF-8).');
    expect(await jobText(page)).toBe(before);
  });

  test('a file that cannot be read is told of, wherever it was to go', async ({ openPage }) => {
    const stub = `window.showOpenFilePicker = async () => [{ name: 'x', getFile: async () => { throw new Error('it has gone'); } }];`;
    const { page, complaints } = await openPage({}, stub);
    await page.getByText('check a sawn part').click();
    await page.getByText('Open a list of readings').click();
    await page.getByText('Open', { exact: true }).click();
    for (const id of ['file-said', 'readings-said'])
      await expect
        .poll(() => page.locator(`#${id}`).textContent())
        .toBe('The page cannot read this file: it has gone');
    expect(complaints).toEqual([]);
  });
});
