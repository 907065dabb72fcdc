import type { Browser, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { sampleText } from '../part/jobs.ts';
import {
  begin,
  downloaded,
  drawn,
  grip,
  jobText,
  NAIL,
  openJobFile,
  openPage,
  STATION,
  takeHold,
  typeStation,
} from './browser.ts';

/** A file that is read once `answer` is called with its text. */
const SLOW_FILE = `
  window.showOpenFilePicker = async () => [{
    name: 'mine.yaml',
    getFile: () => new Promise((done) => { window.answer = (text) => done(new Blob([text])); }),
  }];`;

async function openSlowly(page: Page): Promise<void> {
  await page.getByText('Open', { exact: true }).click();
  await expect.poll(() => page.evaluate('typeof answer')).toBe('function');
}

const answer = (page: Page, text: string): Promise<unknown> =>
  page.evaluate(`answer(${JSON.stringify(text)})`).then(() => drawn(page));

export function lateTests(browser: () => Browser): void {
  describe('files that come late, twice or not at all', () => {
    test('another job that comes while the hand holds a point is not written over by it', async () => {
      const { page } = await openPage(browser(), {}, SLOW_FILE);
      await openSlowly(page);
      const { x, y } = await takeHold(page, 60);
      const bracket = sampleText('wall-shelf-bracket.yaml');
      await answer(page, bracket);
      await page.mouse.move(x + 90, y);
      await drawn(page);
      await page.mouse.up();
      expect(await jobText(page)).toBe(bracket);
    });

    test('Escape brings no text of another job back', async () => {
      const { page } = await openPage(browser(), {}, SLOW_FILE);
      await openSlowly(page);
      await grip(page, NAIL).focus();
      await page.keyboard.press('ArrowUp');
      const other = sampleText('hall-bench-leg.yaml').replace('Hall bench leg', 'Another leg');
      await answer(page, other);
      await page.keyboard.press('Escape');
      expect(await jobText(page)).toBe(other);
    });

    test('what is half typed is not written into another job', async () => {
      const { page } = await openPage(browser(), {}, SLOW_FILE);
      await openSlowly(page);
      await page.getByLabel(STATION).fill('1');
      const other = sampleText('hall-bench-leg.yaml').replace('Hall bench leg', 'Another leg');
      await answer(page, other);
      await page.locator('#job-panel summary').focus();
      expect(await jobText(page)).toBe(other);
      expect(await page.getByLabel(STATION).inputValue()).toBe('12');
    });

    test('a slow file does not push away the job that was taken up after it was asked for', async () => {
      const { page } = await openPage(browser(), {}, SLOW_FILE);
      await openSlowly(page);
      await begin(page, 'Garden arch rail');
      await answer(page, sampleText('wall-shelf-bracket.yaml'));
      expect(await page.locator('#name').textContent()).toBe('Garden arch rail');
    });

    test('two saves into one file leave the later text in it', async () => {
      const stub = `
        window.file = '';
        window.closing = [];
        const handle = { name: 'leg.yaml', createWritable: async () => {
          let held = '';
          return { write: async (text) => { held = text; }, close: () => new Promise((done) => closing.push(() => { file = held; done(); })) };
        } };
        window.showSaveFilePicker = async () => handle;`;
      const { page } = await openPage(browser(), {}, stub);
      const save = () => page.getByText('Save', { exact: true }).click();
      const closing = () => page.evaluate('closing.length');
      const said = () => page.locator('#file-said').textContent();
      await save();
      await expect.poll(closing).toBe(1);
      // What comes of it while the hand drags is still there at the next move, and once it lets go.
      const { x, y } = await takeHold(page, 60);
      await page.evaluate('closing.shift()()');
      await expect.poll(said).toBe('leg.yaml is saved.');
      await page.mouse.move(x + 90, y);
      await drawn(page);
      await page.mouse.up();
      expect(await said()).toBe('leg.yaml is saved.');
      await page.keyboard.press('ArrowUp');
      expect(await said()).toBe('');
      await save();
      await expect.poll(closing).toBe(1);
      await typeStation(page, '13');
      await save();
      expect(await said()).toMatch(/^The save before this one is not done yet/);
      // The later one is ready first, if the two run side by side.
      for (let i = 0; i < 2; i++) {
        await expect.poll(closing).toBeGreaterThan(0);
        await page.evaluate('closing.pop()()');
        await drawn(page);
      }
      expect(await page.evaluate('file')).toBe(await jobText(page));
    });

    test('a paper is made of the part it was asked for, and once for two quick clicks', async () => {
      const { page } = await openPage(browser());
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

    test('a file too long to be a job is refused, as only its beginning was read', async () => {
      const { page } = await openPage(browser(), {}, SLOW_FILE);
      await openSlowly(page);
      const before = await jobText(page);
      await answer(page, '# a remark\n'.repeat(5000));
      await expect
        .poll(() => page.locator('#faults').textContent())
        .toBe('mine.yaml: more than 4000 lines. A job takes a page or two.');
      expect(await jobText(page)).toBe(before);
    });

    test('a file in another coding is refused: letters that were not read must not be saved over it', async () => {
      const { page } = await openPage(browser(), {}, SLOW_FILE);
      await openSlowly(page);
      const before = await jobText(page);
      // "für" as ISO 8859-1 has it, in the second line.
      await page.evaluate('answer(new Uint8Array([35, 10, 35, 32, 0x66, 0xfc, 0x72, 10]))');
      await expect
        .poll(() => page.locator('#faults').textContent())
        .toBe('mine.yaml, line 2: a character here is not text. Save the job as plain text (UTF-8).');
      expect(await jobText(page)).toBe(before);
    });

    test('a file that cannot be read is told of, wherever it was to go', async () => {
      const stub = `window.showOpenFilePicker = async () => [{ name: 'x', getFile: async () => { throw new Error('it has gone'); } }];`;
      const { page, complaints } = await openPage(browser(), {}, stub);
      await page.getByText('check a sawn part').click();
      await page.getByText('Open a list of readings').click();
      await page.getByText('Open', { exact: true }).click();
      for (const id of ['file-said', 'readings-said'])
        await expect
          .poll(() => page.locator(`#${id}`).textContent())
          .toBe('This file could not be read: it has gone');
      expect(complaints).toEqual([]);
    });

    test('a job whose lines end as on Windows is saved so, typed into or not', async () => {
      const { page } = await openPage(browser(), {}, SLOW_FILE);
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
}
