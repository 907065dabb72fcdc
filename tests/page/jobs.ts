import type { Browser, FileChooser } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { parseJob } from '../../src/job/parse-job.ts';
import { SAMPLES, sampleText } from '../part/jobs.ts';
import { begin, downloaded, figure, jobText, openPage, rested, STATION } from './browser.ts';

export function jobTests(browser: () => Browser): void {
  describe('lengths', () => {
    test('are typed as on a rule, in any unit', async () => {
      const { page } = await openPage(browser());
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

    test('that make no part are told beside the field, and the part stays', async () => {
      const { page } = await openPage(browser());
      const before = await jobText(page);
      const field = page.getByLabel(STATION);
      for (const [typed, said] of [
        ['40', 'does not lie short of the end'],
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

    test('typed wrong, give way once the place is moved by hand, and the field says what it is for', async () => {
      const { page } = await openPage(browser());
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

    test('that make the part longer than the sheet have it drawn smaller', async () => {
      const { page } = await openPage(browser());
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

    test('show in the unit of the job once its text has another', async () => {
      const { page } = await openPage(browser());
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

    test('show in the other unit without changing the part', async () => {
      const { page } = await openPage(browser());
      const before = await jobText(page);
      expect(await figure(page, 'least width')).toBe('1 5/8 in at station 0');
      await page.getByText('mm', { exact: true }).click();
      await rested(page);
      expect(await figure(page, 'least width')).toBe('41.5 mm shy at station 0');
      expect(await jobText(page)).toBe(before);
    });
  });

  describe('the job file', () => {
    test('ten megabytes pasted are refused in a moment, into the job or among the readings', async () => {
      const { page } = await openPage(browser());
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
      const refused = 'longer than 64 kB. Readings take a line a station: 6, 1/2.';
      await expect.poll(() => said.first().textContent()).toBe(refused);
      expect(await page.locator('#faults').textContent()).toBe(
        'longer than 64 kB. A job takes a page or two.',
      );
      // The readings that stand in the field are compared anew, as after every rest: what was refused is still told.
      await page.getByText('mm', { exact: true }).click();
      await expect.poll(() => said.last().textContent()).toContain('mm');
      expect(await said.first().textContent()).toBe(refused);
      expect(await jobText(page)).toBe(before);
      expect(await readings.inputValue()).toBe('18, 3');
      await readings.fill('18, 3 1/4');
      expect(await said.filter({ hasText: '64 kB' }).count()).toBe(0);
    });

    test('of more mistakes than anyone mends at a time the rest are counted', async () => {
      const { page } = await openPage(browser());
      await page.getByText('the job file').click();
      await page.locator('#job-text').fill('a:\n'.repeat(200));
      expect(await page.locator('#faults button').count()).toBe(40);
      expect(await page.locator('#faults li').last().textContent()).toMatch(/^and 1\d\d more$/);
    });

    test('is edited beside the drawing; a mistake is told at its line with its cure', async () => {
      const { page } = await openPage(browser());
      await page.getByText('the job file').click();
      const text = await jobText(page);
      await page.locator('#job-text').fill(text.replace('[34, 2]', '[34, 2x]'));
      const line = text.split('\n').findIndex((each) => each.includes('batten: [34, 2]')) + 1;
      const told = page.locator('#faults button');
      expect(await told.textContent()).toMatch(
        new RegExp(`^line ${line}: edges.back\\[1\\].batten\\[1\\]: .* Write `),
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

  describe('files', () => {
    test('a job is opened, changed, saved, and reads as it lies on the bench', async () => {
      const { page } = await openPage(browser());
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

    test('another job taken up is undone like any step, and each goes back into its own file', async () => {
      const stub = `
        window.wrote = [];
        const handle = { name: 'leg.yaml', createWritable: async () => ({ write: async (text) => wrote.push(text), close: async () => {} }) };
        window.showSaveFilePicker = async () => { wrote.push('asked'); return handle; };`;
      const { page } = await openPage(browser(), {}, stub);
      await page.locator('[data-key="edges.back[1].through[0]"]').focus();
      await page.keyboard.press('ArrowUp');
      const mine = await jobText(page);
      await page.getByText('Save', { exact: true }).click();
      await page.getByText('leg.yaml is saved.').waitFor();
      // As a keyboard goes down the list: one step.
      for (const name of ['Garden arch rail', 'Wall shelf bracket']) await begin(page, name);
      await page.getByText('Save', { exact: true }).click();
      await expect.poll(() => page.evaluate('wrote.length')).toBe(4);
      await page.locator('#back').click();
      expect(await jobText(page)).toBe(mine);
      expect(await page.locator('#name').textContent()).toBe('Hall bench leg');
      await page.getByText('Save', { exact: true }).click();
      await expect.poll(() => page.evaluate('wrote.length')).toBe(5);
      expect(await page.evaluate('wrote')).toEqual([
        'asked',
        mine,
        'asked',
        sampleText('wall-shelf-bracket.yaml'),
        mine,
      ]);
    });

    test('what cannot be written is told, and a copy is saved all the same', async () => {
      const stub = `window.showSaveFilePicker = async () => { throw new DOMException('the disk is full', 'QuotaExceededError'); };`;
      const { page } = await openPage(browser(), {}, stub);
      const { name, bytes } = await downloaded(page, () => page.getByText('Save', { exact: true }).click());
      expect([name, bytes.toString()]).toEqual(['hall-bench-leg.yaml', await jobText(page)]);
      expect(await page.locator('#file-said').textContent()).toBe(
        'hall-bench-leg.yaml could not be written (the disk is full): a copy is among your downloads.',
      );
    });

    test('where the browser lets the page write, the job goes back into its own file', async () => {
      const stub = `
        window.wrote = [];
        const handle = { name: 'leg.yaml', createWritable: async () => ({ write: async (text) => wrote.push(text), close: async () => {} }) };
        window.showSaveFilePicker = async () => { wrote.push('asked'); return handle; };`;
      const { page } = await openPage(browser(), {}, stub);
      for (const _ of ['once', 'again']) await page.getByText('Save', { exact: true }).click();
      await expect.poll(() => page.evaluate('wrote.length')).toBe(3);
      const text = await jobText(page);
      expect(await page.evaluate('wrote')).toEqual(['asked', text, text]);
    });

    test('every sample is built in and makes its part', async () => {
      const { page, complaints } = await openPage(browser());
      expect(await jobText(page)).toBe(sampleText('hall-bench-leg.yaml'));
      for (const text of SAMPLES.map(sampleText)) {
        await begin(page, parseJob(text).job.part);
        expect(await jobText(page)).toBe(text);
        expect(await page.locator('#faults li').count()).toBe(0);
      }
      expect(complaints).toEqual([]);
    });
  });
}
