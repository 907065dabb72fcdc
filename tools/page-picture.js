// Part of npm run picture: the page as it stands, the nail of the bench leg in hand.
// node tools/page-picture.js FILE.png: into that file; a test compares it with the README's.
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { browserPath } from './browser.js';
import { root } from './setup.js';

const PICTURE = join(root, 'samples', 'hall-bench-leg-page.png');
const SCREEN = { width: 1280, height: 800 };
const NAIL = '[data-key="edges.back[1].through[0]"]';
/** Longer than the page waits for the hand to rest. */
const REST_MS = 600;

export async function drawBrowserPage(path = PICTURE) {
  const browser = await chromium.launch({
    executablePath: browserPath(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--no-first-run'],
  });
  const page = await browser.newPage({ viewport: SCREEN, colorScheme: 'light' });
  await page.goto(pathToFileURL(join(root, 'dist', 'fairlath.html')).href);
  await page.locator('#show-comb').check();
  await page.locator(NAIL).focus();
  await page.waitForTimeout(REST_MS);
  await page.screenshot({ path });
  await browser.close();
  return path;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await drawBrowserPage(process.argv[2]);
