import { describe, expect } from 'vitest';
import { sampleText } from '../part/jobs.ts';
import { test } from './browser.ts';
import { begin, drawn, grip, jobText, NAIL, STATION, takeHold } from './on-page.ts';
import { answer, openSlowly, SLOW_FILE } from './slow-file.ts';

describe('files that come late', () => {
  test('another job that comes while the hand holds a point is not written over by it', async ({
    openPage,
  }) => {
    const { page } = await openPage({}, SLOW_FILE);
    await openSlowly(page);
    const { x, y } = await takeHold(page, 60);
    const bracket = sampleText('wall-shelf-bracket.yaml');
    await answer(page, bracket);
    await page.mouse.move(x + 90, y);
    await drawn(page);
    await page.mouse.up();
    expect(await jobText(page)).toBe(bracket);
  });

  test('Escape brings no text of another job back', async ({ openPage }) => {
    const { page } = await openPage({}, SLOW_FILE);
    await openSlowly(page);
    await grip(page, NAIL).focus();
    await page.keyboard.press('ArrowUp');
    const other = sampleText('hall-bench-leg.yaml').replace('Hall bench leg', 'Another leg');
    await answer(page, other);
    await page.keyboard.press('Escape');
    expect(await jobText(page)).toBe(other);
  });

  test('what is half typed is not written into another job', async ({ openPage }) => {
    const { page } = await openPage({}, SLOW_FILE);
    await openSlowly(page);
    await page.getByLabel(STATION).fill('1');
    const other = sampleText('hall-bench-leg.yaml').replace('Hall bench leg', 'Another leg');
    await answer(page, other);
    await page.locator('#job-panel summary').focus();
    expect(await jobText(page)).toBe(other);
    expect(await page.getByLabel(STATION).inputValue()).toBe('12');
  });

  test('a slow file does not push away the job that was taken up after it was asked for', async ({
    openPage,
  }) => {
    const { page } = await openPage({}, SLOW_FILE);
    await openSlowly(page);
    await begin(page, 'Garden arch rail');
    await answer(page, sampleText('wall-shelf-bracket.yaml'));
    expect(await page.locator('#name').textContent()).toBe('Garden arch rail');
  });
});
