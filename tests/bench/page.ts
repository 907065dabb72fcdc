import { pathToFileURL } from 'node:url';
import { chromium, type Page } from 'playwright-core';
import { browserPath } from '../../tools/browser.js';
import type { Figure } from './figure.ts';

/** Moves of one drag: two seconds of a hand at 60 frames a second. */
const MOVES = 120;
const WARM_UP = 30;

/** Rests of the hand after a drag, and how long it rests, ms: longer than the page waits and works. */
const RESTS = 9;
const REST_MS = 500;

/** A drag to time: the part, the grip, and how far it swings each way, px. */
const DRAGS = [
  { part: 'Hall bench leg', key: 'edges.back[1].through[0]', across: 120, up: 20 },
  { part: 'Garden arch rail', key: 'edges.upper[1].apex', across: 40, up: 30 },
  { part: 'Wall shelf bracket', key: 'edges.over[1].through[1]', across: 20, up: 20 },
] as const;

/**
 * Times each frame's own work: everything from the job's text to the drawing, and the browser's layout of it,
 * which asking for a place on the screen brings about. Painting comes after, in another thread.
 */
const WATCH = `
  window.frames_ = []; window.rests_ = [];
  const raf = window.requestAnimationFrame.bind(window), later = window.setTimeout.bind(window);
  const timed = (list, work) => (...given) => {
    const started = performance.now();
    work(...given);
    document.querySelector('#notes').getBoundingClientRect();
    list.push(performance.now() - started);
  };
  window.requestAnimationFrame = (work) => raf(timed(frames_, work));
  window.setTimeout = (work, ms, ...rest) => later(ms === 140 ? timed(rests_, work) : work, ms, ...rest);`;

const share = (times: readonly number[], part: number): number =>
  times.toSorted((a, b) => a - b)[Math.floor((times.length - 1) * part)] ?? 0;

async function timesOf(page: Page, { part, key, across, up }: (typeof DRAGS)[number]) {
  await page.locator('#samples').selectOption({ label: part });
  await page.waitForTimeout(400);
  const box = await page.locator(`[data-key="${key}"] .reach`).boundingBox();
  if (!box) throw new Error(`there is no grip ${key}`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const move = (i: number) => page.mouse.move(x + across * Math.sin(i / 9), y + up * Math.sin(i / 7));
  for (let i = 0; i < WARM_UP + MOVES; i++) {
    if (i === WARM_UP) await page.evaluate('void (frames_.length = 0)');
    await move(i);
  }
  const frames = (await page.evaluate('[...frames_]')) as number[];
  await page.evaluate('void (rests_.length = 0)');
  for (let i = 0; i < RESTS; i++) {
    await move(WARM_UP + MOVES + i);
    await page.waitForTimeout(REST_MS);
  }
  await page.mouse.up();
  const rests = (await page.evaluate('[...rests_]')) as number[];
  if (rests.length < RESTS) throw new Error(`the page has worked on ${rests.length} rests of ${RESTS}`);
  return { frames, rests };
}

/** What a drag costs in a real browser, frame by frame. */
export async function pageFigures(): Promise<Figure[]> {
  const browser = await chromium.launch({
    executablePath: browserPath(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--no-first-run'],
  });
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.addInitScript(WATCH);
  await page.goto(pathToFileURL('dist/fairlath.html').href);
  const figures: Figure[] = [];
  for (const drag of DRAGS) {
    const { frames, rests } = await timesOf(page, drag);
    figures.push(
      { name: `page, ${drag.part}: a frame of a drag`, value: share(frames, 0.5), unit: 'ms', goal: 4 },
      { name: `page, ${drag.part}: 95 of 100 frames`, value: share(frames, 0.95), unit: 'ms', goal: 8 },
      { name: `page, ${drag.part}: once the hand rests`, value: share(rests, 0.5), unit: 'ms', goal: 50 },
    );
  }
  await browser.close();
  return figures;
}
