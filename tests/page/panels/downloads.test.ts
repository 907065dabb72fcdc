import { describe, expect } from 'vitest';
import { test } from '../browser.ts';
import { downloaded, figure, rested } from '../on-page.ts';

describe('papers', () => {
  test('the sheets are counted when the hand rests, and lie over the part on demand', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    expect(await figure(page, 'sheets')).toBe('4 sheets of letter');
    await page.getByText('show the sheets over the part').click();
    expect(await page.locator('.sheets text').allTextContents()).toEqual(['1A', '1B', '1C', '1D']);
    await page.locator('#paper').selectOption('tabloid');
    await rested(page);
    expect(await figure(page, 'sheets')).toMatch(/^[23] sheets of tabloid$/);
  });

  test('a part of more sheets than anybody tapes up says so, and so does its pattern', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await page.getByText('the job file').click();
    const job = `part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - batten: [50000, 0]\n      through: [20000, 2500]\n`;
    await page.locator('#job-text').fill(job);
    await rested(page);
    expect(await page.locator('#sheets-said').textContent()).toMatch(
      /needs (?:up to )?\d+ sheets of A4, but the limit is 200/,
    );
    expect(await figure(page, 'sheets')).toBe('none. See “Take to the bench”');
    await page.getByText('The pattern, full size').click();
    await page.getByText(/^The page cannot make this file: .*sheets of A4/).waitFor();
  });

  test('a paper is made of the part it was asked for, and once for two quick clicks', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    const paper = page.getByRole('button', { name: 'The pattern, full size (PDF)' });
    const alone = await downloaded(page, () => paper.click());
    const names: string[] = [];
    page.on('download', (each) => names.push(each.suggestedFilename()));
    const { name, bytes } = await downloaded(page, async () => {
      await page.evaluate(`(() => {
        const button = [...document.querySelectorAll('#papers button')][0];
        button.click();
        button.click();
        const choice = document.getElementById('samples');
        choice.selectedIndex = [...choice.options].findIndex(({ text }) => text === 'Garden arch rail');
        choice.dispatchEvent(new Event('change'));
      })()`);
    });
    expect(name).toBe('hall-bench-leg.pdf');
    expect(bytes.equals(alone.bytes)).toBe(true);
    await page.waitForTimeout(500);
    expect(names).toEqual(['hall-bench-leg.pdf']);
  });
});
