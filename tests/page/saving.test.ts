import { describe, expect } from 'vitest';
import { sampleText } from '../part/jobs.ts';
import { test } from './browser.ts';
import { begin, downloaded, drawn, jobText, takeHold, typeStation } from './on-page.ts';

describe('saving', () => {
  test('another job taken up is undone like any step, and each goes back into its own file', async ({
    openPage,
  }) => {
    const stub = `
      window.wrote = [];
      const handle = { name: 'leg.yaml', createWritable: async () => ({ write: async (text) => wrote.push(text), close: async () => {} }) };
      window.showSaveFilePicker = async () => { wrote.push('asked'); return handle; };`;
    const { page } = await openPage({}, stub);
    await page.locator('[data-key="edges.back[1].through[0]"]').focus();
    await page.keyboard.press('ArrowUp');
    const mine = await jobText(page);
    await page.getByText('Save', { exact: true }).click();
    await page.getByText('Saved leg.yaml.').waitFor();
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

  test('what cannot be written is told, and a copy is saved all the same', async ({ openPage }) => {
    const stub = `window.showSaveFilePicker = async () => { throw new DOMException('the disk is full', 'QuotaExceededError'); };`;
    const { page } = await openPage({}, stub);
    const { name, bytes } = await downloaded(page, () => page.getByText('Save', { exact: true }).click());
    expect([name, bytes.toString()]).toEqual(['hall-bench-leg.yaml', await jobText(page)]);
    expect(await page.locator('#file-said').textContent()).toBe(
      'hall-bench-leg.yaml could not be saved (the disk is full). A copy is in your Downloads folder.',
    );
  });

  test('where the browser lets the page write, the job goes back into its own file', async ({ openPage }) => {
    const stub = `
      window.wrote = [];
      const handle = { name: 'leg.yaml', createWritable: async () => ({ write: async (text) => wrote.push(text), close: async () => {} }) };
      window.showSaveFilePicker = async () => { wrote.push('asked'); return handle; };`;
    const { page } = await openPage({}, stub);
    for (const _ of ['once', 'again']) await page.getByText('Save', { exact: true }).click();
    await expect.poll(() => page.evaluate('wrote.length')).toBe(3);
    const text = await jobText(page);
    expect(await page.evaluate('wrote')).toEqual(['asked', text, text]);
  });

  test('two saves into one file leave the later text in it', async ({ openPage }) => {
    const stub = `
      window.file = '';
      window.closing = [];
      const handle = { name: 'leg.yaml', createWritable: async () => {
        let held = '';
        return { write: async (text) => { held = text; }, close: () => new Promise((done) => closing.push(() => { file = held; done(); })) };
      } };
      window.showSaveFilePicker = async () => handle;`;
    const { page } = await openPage({}, stub);
    const save = () => page.getByText('Save', { exact: true }).click();
    const closing = () => page.evaluate('closing.length');
    const said = () => page.locator('#file-said').textContent();
    await save();
    await expect.poll(closing).toBe(1);
    // What comes of it while the hand drags is still there at the next move, and once it lets go.
    const { x, y } = await takeHold(page, 60);
    await page.evaluate('closing.shift()()');
    await expect.poll(said).toBe('Saved leg.yaml.');
    await page.mouse.move(x + 90, y);
    await drawn(page);
    await page.mouse.up();
    expect(await said()).toBe('Saved leg.yaml.');
    await page.keyboard.press('ArrowUp');
    expect(await said()).toBe('');
    await save();
    await expect.poll(closing).toBe(1);
    await typeStation(page, '13');
    await save();
    expect(await said()).toMatch(/^The previous save is still running/);
    // The later one is ready first, if the two run side by side.
    for (let i = 0; i < 2; i++) {
      await expect.poll(closing).toBeGreaterThan(0);
      await page.evaluate('closing.pop()()');
      await drawn(page);
    }
    expect(await page.evaluate('file')).toBe(await jobText(page));
  });
});
