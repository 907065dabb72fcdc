import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { drawn } from './on-page.ts';

/** A file that is read once `answer` is called with its text. */
export const SLOW_FILE = `
  window.showOpenFilePicker = async () => [{
    name: 'mine.yaml',
    getFile: () => new Promise((done) => { window.answer = (text) => done(new Blob([text])); }),
  }];`;

export async function openSlowly(page: Page): Promise<void> {
  await page.getByText('Open', { exact: true }).click();
  await expect.poll(() => page.evaluate('typeof answer')).toBe('function');
}

export const answer = (page: Page, text: string): Promise<unknown> =>
  page.evaluate(`answer(${JSON.stringify(text)})`).then(() => drawn(page));
