import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { root } from '../cli/run.ts';
import { test } from './browser.ts';
import { begin, jobText, rested, typeStation } from './on-page.ts';

const focused = (page: Page): Promise<unknown> => page.evaluate('document.activeElement.textContent');

describe('readings of the sawn part', () => {
  test('readings of the sawn part, and where it is off', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByText('check a sawn part').click();
    const csv = readFileSync(join(root, 'samples', 'hall-bench-leg-measured.csv'), 'utf8');
    await page.getByLabel('Readings').fill(csv);
    expect(await page.locator('#readings-said').textContent()).toContain('station 26: 3\u204432″ proud');
    await page.getByLabel('Readings').fill('12, 3 1/2\n20, 3 5/16\n');
    expect(await page.locator('#readings-said').textContent()).toMatch(/outside.*station.12: 1⁄4″ proud/);
    await page.getByLabel('Readings').fill('12, x\n');
    expect(await page.locator('#readings-said').textContent()).toMatch(/^line 1: "x"/);
  });

  test('readings are of one part: another has none of them, and they come back with their own', async ({
    openPage,
  }) => {
    const { page } = await openPage();
    await page.getByText('check a sawn part').click();
    const readings = page.getByLabel('Readings');
    await readings.fill('12, 3 1/2\n20, 3 5/16\n');
    await begin(page, 'Garden arch rail');
    expect(await readings.inputValue()).toBe('');
    expect(await page.locator('.measured path').count()).toBe(0);
    await page.getByText('Undo').click();
    expect(await readings.inputValue()).toBe('12, 3 1/2\n20, 3 5/16\n');
  });

  test('a line that has the keyboard keeps it as the part changes, and shows where its place is by now', async ({
    openPage,
  }) => {
    const { page } = await openPage();
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
      const [words, place] = [await focused(page), await ring()];
      await page.keyboard.press('Control+z');
      await expect.poll(() => focused(page)).not.toBe(words);
      expect(await focused(page)).toMatch(begins);
      expect(await ring()).not.toBe(place);
      await page.keyboard.press('Control+y');
      await rested(page);
    }
  });

  test('readings stay those of their part and edge, and Ctrl Z in them is theirs', async ({ openPage }) => {
    const { page } = await openPage();
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

  test('words are moved within a field by the mouse', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByText('check a sawn part').click();
    const readings = page.locator('#readings');
    await readings.fill('18,3 and a half, the rest of it');
    const box = (await readings.boundingBox())!;
    const line = box.y + 20;
    await page.mouse.dblclick(box.x + 20, line);
    await page.mouse.move(box.x + 22, line);
    await page.mouse.down();
    await page.mouse.move(box.x + 120, line, { steps: 6 });
    await page.mouse.move(box.x + 240, line, { steps: 6 });
    await page.mouse.up();
    expect(await readings.inputValue()).not.toMatch(/^18,3/);
    expect(await readings.inputValue()).toMatch(/18/);
  });
});
