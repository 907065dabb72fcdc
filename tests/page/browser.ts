import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type Browser,
  type BrowserContextOptions,
  chromium,
  type Download,
  type Page,
  type ViewportSize,
} from 'playwright-core';
import { test as bare } from 'vitest';
import { browserPath } from '../../tools/browser.js';
import { root } from '../cli/run.ts';

/** The page as it is built: one file, opened as by a double click. */
const PAGE = pathToFileURL(join(root, 'dist', 'fairlath.html')).href;

/** Nothing but what a browser needs to start without a screen and without calling home. */
const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
];

/** A real browser, unpacked from its package: nothing is installed on the system. */
const startBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: browserPath(), args: ARGUMENTS });

interface Watched {
  readonly page: Page;
  /** Everything the page has asked for. */
  readonly requests: string[];
  /** What it has complained of. */
  readonly complaints: string[];
}

/** Without these the page uploads and downloads, which a test can watch. */
const WITHOUT_PICKERS = 'delete window.showOpenFilePicker; delete window.showSaveFilePicker;';

/** Forgets what was kept, before the page looks; a reload by the test itself forgets nothing. */
const FORGET = `if (location.search) { localStorage.clear(); sessionStorage.clear(); history.replaceState(null, '', location.pathname); }`;

interface Setting {
  readonly hasTouch?: boolean;
  readonly deviceScaleFactor?: number;
  readonly viewport?: ViewportSize;
  readonly colorScheme?: 'light' | 'dark';
}

/** By what a tab is born with: a new tab takes longer than a page opened in it anew. */
type Tabs = Map<string, Promise<Watched>>;

export type OpenPage = (setting?: Setting, init?: string) => Promise<Watched>;

/** One browser serves all tests of a worker: it takes longer to start than any test. */
export const test = bare
  .extend('tabs', { scope: 'worker' }, (): Tabs => new Map())
  .extend('browser', { scope: 'worker' }, async ({ tabs }, { onCleanup }) => {
    const browser = await startBrowser();
    onCleanup(() => {
      tabs.clear();
      return browser.close();
    });
    return browser;
  })
  .extend(
    'openPage',
    { scope: 'worker' },
    ({ browser, tabs }): OpenPage =>
      (setting, init) =>
        openPage(browser, tabs, setting, init),
  );

/** The page as someone opens it who was never here: nothing kept, nothing in hand. */
async function openPage(
  browser: Browser,
  tabs: Tabs,
  { viewport = { width: 1280, height: 900 }, colorScheme = 'light', ...born }: Setting = {},
  init = WITHOUT_PICKERS,
): Promise<Watched> {
  const key = JSON.stringify([born, init]);
  const tab = tabs.get(key) ?? newTab(browser, born, init);
  tabs.set(key, tab);
  const { page, requests, complaints } = await tab;
  await page.mouse.up();
  await page.mouse.move(0, 0);
  await page.setViewportSize(viewport);
  await page.emulateMedia({ colorScheme });
  requests.length = complaints.length = 0;
  await page.goto(`${PAGE}?anew`);
  await rested(page);
  return { page, requests, complaints };
}

async function newTab(browser: Browser, born: BrowserContextOptions, init: string): Promise<Watched> {
  const context = await browser.newContext({ offline: true, ...born });
  const page = await context.newPage();
  const [requests, complaints]: [string[], string[]] = [[], []];
  page.on('request', (request) => requests.push(request.url()));
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.addInitScript(FORGET + init);
  return { page, requests, complaints };
}

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
