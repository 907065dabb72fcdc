import type { Browser, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { sampleText } from '../part/jobs.ts';
import { begin, downloaded, grip, jobText, middleOf, openJobFile, openPage, rested } from './browser.ts';

const NAIL = 'edges.back[1].through[0]';
const STATION = 'back, nail: station, in';

async function typeStation(page: Page, station: string): Promise<void> {
  await page.getByLabel(STATION).fill(station);
  await page.getByLabel(STATION).press('Enter');
  await rested(page);
}

/** Takes hold of the nail, and moves it so far, px. */
async function takeHold(page: Page, across: number): Promise<{ x: number; y: number }> {
  const { x, y } = await middleOf(page, NAIL);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + across, y);
  await drawn(page);
  return { x, y };
}

const drawn = (page: Page): Promise<unknown> =>
  page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');

const inHand = (page: Page): Promise<unknown> => page.evaluate('document.activeElement.textContent');

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

export function meanwhileTests(browser: () => Browser): void {
  describe('while something else goes on', () => {
    test('a line that has the keyboard keeps it as the part changes, and shows where its place is by now', async () => {
      const { page } = await openPage(browser());
      await typeStation(page, '13');
      await page.getByText('check a sawn part').click();
      await page.locator('#readings').fill('18, 3');
      await page.locator('#beside-kinds label', { hasText: 'arc' }).click();
      const ring = () => page.locator('.places .ring').getAttribute('cy');
      for (const [list, begins] of [
        ['#readings-said', /^station 18/],
        ['#beside-said', /^back: the arc/],
      ] as const) {
        const line = page.locator(`${list} button`).first();
        await line.focus();
        expect(await line.textContent()).toMatch(begins);
        const [words, place] = [await inHand(page), await ring()];
        await page.keyboard.press('Control+z');
        await expect.poll(() => inHand(page)).not.toBe(words);
        expect(await inHand(page)).toMatch(begins);
        expect(await ring()).not.toBe(place);
        await page.keyboard.press('Control+y');
        await rested(page);
      }
    });

    test('what is undone while the hand holds a point stays undone', async () => {
      const { page } = await openPage(browser());
      const first = await jobText(page);
      await typeStation(page, '13');
      const { x, y } = await takeHold(page, 60);
      await page.keyboard.press('Control+z');
      await page.mouse.move(x + 90, y);
      await drawn(page);
      await page.mouse.up();
      expect(await jobText(page)).toBe(first);
      await page.locator('#forward').click();
      expect(await jobText(page)).toBe(first.replace('[12, 3 1/4]', '[13, 3 1/4]'));
    });

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

    test('one of our parts that is undone can be chosen anew', async () => {
      const { page } = await openPage(browser());
      const [parts, name] = [page.locator('#samples'), page.locator('#name')];
      await parts.focus();
      await parts.selectOption({ label: 'Garden arch rail' });
      await page.keyboard.press('Control+z');
      expect(await name.textContent()).toBe('Hall bench leg');
      await parts.evaluate((list) => list.dispatchEvent(new Event('change')));
      expect(await name.textContent()).toBe('Hall bench leg');
      expect(await parts.inputValue()).toBe('');
    });

    test('after an undo who types in the job goes on where it was, not at the end of the text', async () => {
      const { page } = await openPage(browser());
      await openJobFile(page);
      const text = await jobText(page);
      await page.locator('#job-text').focus();
      await page.keyboard.press('Control+Home');
      await page.keyboard.type('# one');
      await page.keyboard.press('Control+z');
      expect(await jobText(page)).toBe(text);
      await page.keyboard.type('# two');
      expect(await jobText(page)).toBe(`# two${text}`);
    });

    test('where a nail would stand is not shown any more once the part is another', async () => {
      const { page } = await openPage(browser());
      await typeStation(page, '13');
      await page.locator('#nail-set').click();
      const { x, y } = await middleOf(page, NAIL);
      await page.mouse.move(x + 60, y);
      const ghost = page.locator('.setting circle');
      expect(await ghost.getAttribute('visibility')).toBe('visible');
      // Without the mouse's moving.
      await page.locator('#back').dispatchEvent('click');
      expect(await ghost.getAttribute('visibility')).toBe('hidden');
    });

    test('a slow file does not push away the job that was taken up after it was asked for', async () => {
      const { page } = await openPage(browser(), {}, SLOW_FILE);
      await openSlowly(page);
      await begin(page, 'Garden arch rail');
      await answer(page, sampleText('wall-shelf-bracket.yaml'));
      expect(await page.locator('#name').textContent()).toBe('Garden arch rail');
    });

    test('looking nearer does not make a point jump in the hand', async () => {
      const { page } = await openPage(browser());
      await openJobFile(page);
      const { x, y } = await takeHold(page, 80);
      const before = await jobText(page);
      await page.keyboard.down('Control');
      await page.mouse.wheel(0, -200);
      await page.keyboard.up('Control');
      await page.mouse.move(x + 80.5, y);
      await page.mouse.move(x + 80, y);
      await drawn(page);
      expect(await jobText(page)).toBe(before);
      await page.mouse.up();
    });

    test('a second finger on the sheet sets no nail', async () => {
      const { page } = await openPage(browser(), { hasTouch: true, viewport: { width: 820, height: 1180 } });
      const before = await jobText(page);
      const { x, y } = await middleOf(page, 'edges.front[0].from');
      const there = await middleOf(page, 'edges.front[1].line');
      const sheet = (await page.locator('#drawing').boundingBox())!;
      await page.locator('#nail-set').click();
      const touch = await page.context().newCDPSession(page);
      const send = (type: string, touchPoints: { x: number; y: number }[]) =>
        touch.send('Input.dispatchTouchEvent', { type: type as 'touchStart', touchPoints });
      const bare = { x: sheet.x + sheet.width / 2, y: sheet.y + 20 };
      // On the back, over its nail's neighbourhood: a third of the way along.
      const nail = await middleOf(page, NAIL);
      const onLine = { x: nail.x + (there.x - x) / 10, y: nail.y };
      expect(Math.abs(y - there.y)).toBeLessThan(1);
      await send('touchStart', [bare]);
      await send('touchStart', [bare, onLine]);
      await send('touchEnd', []);
      expect(await jobText(page)).toBe(before);
      expect(await page.locator('.grip.nail').count()).toBe(1);
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
      await save();
      await expect.poll(closing).toBe(1);
      await page.evaluate('closing.shift()()');
      await save();
      await expect.poll(closing).toBe(1);
      await typeStation(page, '13');
      await save();
      await drawn(page);
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
        .toBe('more than 4000 lines. A job takes a page or two.');
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

    test('readings stay those of their part and edge, and Ctrl Z in them is theirs', async () => {
      const { page } = await openPage(browser());
      await page.getByText('check a sawn part').click();
      const [readings, edge] = [page.locator('#readings'), page.locator('#readings-edge')];
      await typeStation(page, '13');
      const mine = await jobText(page);
      await readings.click();
      await page.keyboard.type('18, 3');
      await edge.selectOption('front');
      await readings.press('Control+z');
      expect(await jobText(page)).toBe(mine);
      await readings.fill('18, 0');
      await begin(page, 'Garden arch rail');
      expect(await readings.inputValue()).toBe('');
      await readings.fill('100, 1');
      await page.locator('#back').click();
      await rested(page);
      await expect.poll(() => edge.inputValue()).toBe('front');
      expect(await readings.inputValue()).toBe('18, 0');
      // What was undone is gone with its readings: the next job is another.
      await begin(page, 'Wall shelf bracket');
      expect(await readings.inputValue()).toBe('');
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

    test('what was done last is kept though the page goes at once, and however often it is opened', async () => {
      const { page } = await openPage(browser());
      await page.getByLabel(STATION).fill('13');
      await page.getByLabel(STATION).press('Enter');
      const text = await jobText(page);
      await page.reload();
      await rested(page);
      await page.reload();
      await rested(page);
      await page.getByText('Take it up again').click();
      expect(await jobText(page)).toBe(text);
    });
  });
}
