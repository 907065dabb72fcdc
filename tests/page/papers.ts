import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { root } from '../cli/run.ts';
import { begin, figure, openPage, rested } from './browser.ts';

export function paperTests(browser: () => Browser): void {
  describe('papers', () => {
    test('the sheets are counted when the hand rests, and lie over the part on demand', async () => {
      const { page } = await openPage(browser());
      expect(await figure(page, 'sheets')).toBe('4 sheets of letter');
      await page.getByText('show the sheets over the part').click();
      expect(await page.locator('.sheets text').allTextContents()).toEqual(['A1', 'A2', 'A3', 'A4']);
      await page.locator('#paper').selectOption('tabloid');
      await rested(page);
      expect(await figure(page, 'sheets')).toMatch(/^[23] sheets of tabloid$/);
    });
  });

  test('a part of more sheets than anybody tapes up says so, and so does its pattern', async () => {
    const { page } = await openPage(browser());
    await page.getByText('the job file').click();
    const job = `part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - batten: [50000, 0]\n      through: [20000, 2500]\n`;
    await page.locator('#job-text').fill(job);
    await rested(page);
    expect(await page.locator('#sheets-said').textContent()).toMatch(
      /takes (?:up to )?\d+ sheets of A4, and 200 is the most/,
    );
    expect(await figure(page, 'sheets')).toBe('none: see “Take to the bench”');
    await page.getByText('The pattern, full size').click();
    await page.getByText(/^This could not be made: .*200 is the most/).waitFor();
  });

  describe('laid over the line', () => {
    test('other curves with what they are off at worst', async () => {
      const { page } = await openPage(browser());
      await page.getByLabel('arc', { exact: true }).check();
      const said = page.locator('#beside-said button');
      await said.waitFor();
      // The same as `fairlath show` says of this leg.
      expect((await said.textContent())?.replaceAll('\u00a0', ' ')).toContain(
        'lies 3⁄16 in off at station 27 7⁄32',
      );
      expect(await page.locator('.beside path').count()).toBe(1);
    });

    test('their words keep clear of each other, on a phone too', async () => {
      const { page } = await openPage(browser(), { viewport: { width: 390, height: 844 } });
      for (const kind of ['arc', 'bow', 'spline']) await page.getByLabel(kind, { exact: true }).check();
      const words = page.locator('.beside text');
      await expect.poll(() => words.count()).toBe(3);
      const boxes = await Promise.all((await words.all()).map(async (each) => (await each.boundingBox())!));
      for (const [i, a] of boxes.entries())
        for (const b of boxes.slice(i + 1)) {
          // A box is taller than its letters, which stand 17 px high.
          const apart = Math.max(a.x - b.x - b.width, b.x - a.x - a.width, Math.abs(a.y - b.y) - 17);
          expect(apart).toBeGreaterThanOrEqual(0);
        }
    });

    test('the curvature as teeth', async () => {
      const { page } = await openPage(browser());
      await page.getByLabel('how sharply it bends').check();
      expect(await page.locator('.comb path').getAttribute('d')).toMatch(/^M.*L/);
    });

    test('readings of the sawn part, and where it is off', async () => {
      const { page } = await openPage(browser());
      await page.getByText('check a sawn part').click();
      const csv = readFileSync(join(root, 'samples', 'hall-bench-leg-measured.csv'), 'utf8');
      await page.getByLabel('Readings').fill(csv);
      expect(await page.locator('#readings-said').textContent()).toContain(
        'station 26: 3\u204432\u00a0in proud',
      );
      await page.getByLabel('Readings').fill('12, 3 1/2\n20, 3 5/16\n');
      expect(await page.locator('#readings-said').textContent()).toMatch(/outside.*station.12: 1⁄4.in proud/);
      await page.getByLabel('Readings').fill('12, x\n');
      expect(await page.locator('#readings-said').textContent()).toMatch(/^line 1: "x"/);
    });

    test('readings are of one part: another has none of them, and they come back with their own', async () => {
      const { page } = await openPage(browser());
      await page.getByText('check a sawn part').click();
      const readings = page.getByLabel('Readings');
      await readings.fill('12, 3 1/2\n20, 3 5/16\n');
      await begin(page, 'Garden arch rail');
      expect(await readings.inputValue()).toBe('');
      expect(await page.locator('.measured path').count()).toBe(0);
      await page.getByText('Undo').click();
      expect(await readings.inputValue()).toBe('12, 3 1/2\n20, 3 5/16\n');
    });

    test('a figure shows its place when it is pointed at', async () => {
      const { page } = await openPage(browser());
      await page.getByRole('button', { name: 'least width' }).hover();
      expect(await page.locator('.places .ring').getAttribute('visibility')).toBe('visible');
      await page.getByRole('button', { name: 'length of the batten' }).hover();
      expect(await page.locator('.places .edge').getAttribute('d')).toMatch(/^M/);
    });
  });
}
