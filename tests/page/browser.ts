import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type Browser,
  type BrowserContextOptions,
  chromium,
  type Page,
  type ViewportSize,
} from 'playwright-core';
import { test as bare } from 'vitest';
import { browserPath } from '../../tools/browser.js';
import { root } from '../cli/run.ts';
import { rested } from './on-page.ts';

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
  chromium.launch({
    executablePath: browserPath(),
    args: ARGUMENTS,
    // What the browser leaves behind goes with the rest.
    env: { ...process.env, TMPDIR: process.env.FAIRLATH_TESTS },
  });

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

/** So many stay open: each is a process of its own. */
const MOST_TABS = 4;

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
  const { page, requests, complaints } = await tabFor(browser, tabs, born, init);
  await page.mouse.up();
  await page.mouse.move(0, 0);
  await page.setViewportSize(viewport);
  await page.emulateMedia({ colorScheme });
  requests.length = complaints.length = 0;
  // The page of the test before is gone first: it would hear that its job is forgotten, and write it again.
  await page.goto('about:blank');
  await page.goto(`${PAGE}?anew`);
  await rested(page);
  return { page, requests, complaints };
}

async function tabFor(
  browser: Browser,
  tabs: Tabs,
  born: BrowserContextOptions,
  init: string,
): Promise<Watched> {
  const key = JSON.stringify([born, init]);
  const tab = tabs.get(key) ?? newTab(browser, born, init);
  // What was asked for last comes last.
  tabs.delete(key);
  tabs.set(key, tab);
  const [longest] = tabs.keys();
  if (tabs.size > MOST_TABS && longest !== undefined) {
    const left = await tabs.get(longest);
    tabs.delete(longest);
    await left?.page.context().close();
  }
  return tab;
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
