import { readFileSync } from 'node:fs';
import type { Download, Page } from 'playwright-core';

/** The hand has rested, and what takes longer than a frame is worked out. */
export async function rested(page: Page): Promise<void> {
  await page.locator('#figures-later .figure').first().waitFor();
  await page.locator('#figures-later.old, .figure.old').first().waitFor({ state: 'detached' });
}

export const grip = (page: Page, key: string) => page.locator(`[data-key="${key}"]`);

/** The middle of a grip on the screen. */
export async function middleOf(page: Page, key: string): Promise<{ x: number; y: number }> {
  const box = await grip(page, key).locator('.reach').boundingBox();
  if (!box) throw new Error(`there is no grip ${key}`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** The job as it stands in the panel. */
export const jobText = (page: Page): Promise<string> => page.locator('#job-text').inputValue();

/** The job file opened: only then it follows the hand at every move. */
export const openJobFile = (page: Page): Promise<void> =>
  page.evaluate("document.getElementById('job-panel').open = true");

/** The value beside a figure's name. */
export const figure = async (page: Page, label: string): Promise<string> => {
  const row = page.locator('.figure', { has: page.locator('dt', { hasText: new RegExp(`^${label}$`) }) });
  return ((await row.first().locator('dd').textContent()) ?? '')
    .replaceAll('\u00a0', ' ')
    .replaceAll('\u2044', '/');
};

/** Lays another of the built-in parts on the bench. */
export async function begin(page: Page, name: string): Promise<void> {
  await page.locator('#samples').selectOption({ label: name });
  await rested(page);
}

export async function downloaded(
  page: Page,
  work: () => Promise<void>,
): Promise<{ name: string; bytes: Buffer }> {
  const [file] = await Promise.all([page.waitForEvent('download'), work()]);
  return { name: (file as Download).suggestedFilename(), bytes: readFileSync(await file.path()) };
}

/** The next frame is drawn. */
export const drawn = (page: Page): Promise<unknown> =>
  page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))');

/** The leg's nail, its station typed. */
export const NAIL = 'edges.back[1].through[0]';
export const STATION = 'back, nail: station, in';

export async function typeStation(page: Page, station: string): Promise<void> {
  await page.getByLabel(STATION).fill(station);
  await page.getByLabel(STATION).press('Enter');
  await rested(page);
}

/** Takes hold of the nail, and moves it so far, px. */
export async function takeHold(page: Page, across: number): Promise<{ x: number; y: number }> {
  const { x, y } = await middleOf(page, NAIL);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + across, y);
  await drawn(page);
  return { x, y };
}

/** Pixels an inch: the leg's front edge is 34 in long. */
export async function inch(page: Page): Promise<number> {
  const [from, to] = [
    await middleOf(page, 'edges.front[0].from'),
    await middleOf(page, 'edges.front[1].line'),
  ];
  return (to.x - from.x) / 34;
}

/** Takes hold of a grip and moves the mouse by so many pixels, without letting go. */
export async function drag(page: Page, key: string, x: number, y: number): Promise<void> {
  const from = await middleOf(page, key);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + x, from.y + y, { steps: 6 });
  await drawn(page);
}
