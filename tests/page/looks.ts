import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import axe from 'axe-core';
import pixelmatch from 'pixelmatch';
import type { Browser, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { freshFolder, root } from '../cli/run.ts';
import { begin, openPage, rested } from './browser.ts';

const SCREENS = {
  phone: { width: 360, height: 740 },
  'tablet upright': { width: 820, height: 1180 },
  'tablet lying': { width: 1180, height: 820 },
  desktop: { width: 1440, height: 900 },
} as const;
type Screen = keyof typeof SCREENS;
const SCHEMES = ['light', 'dark'] as const;

/** Pictures are kept at half size: a word that moves, a line that is missing still show. */
const HALF = 0.5;
/** A share of the picture that may differ: edges of letters, which no two machines draw alike to the dot. */
const MAY_DIFFER = 0.004;

const PICTURES = join(root, 'tests', 'fixtures', 'page');

async function pixels(png: Buffer) {
  const image = await loadImage(png);
  const canvas = createCanvas(image.width, image.height);
  const context = canvas.getContext('2d');
  context.drawImage(image, 0, 0);
  return context.getImageData(0, 0, image.width, image.height);
}

/** The share of two pictures that differs; all of it where they are not even of one size. */
async function differing(a: Buffer, b: Buffer): Promise<number> {
  const [one, other] = await Promise.all([pixels(a), pixels(b)]);
  const { width, height } = one;
  if (width !== other.width || height !== other.height) return 1;
  return pixelmatch(one.data, other.data, undefined, width, height, { threshold: 0.2 }) / (width * height);
}

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations: found } = (await page.evaluate(`axe.run({ resultTypes: ['violations'] })`)) as {
    violations: Violation[];
  };
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`),
  );
}

/** Everything laid open and over the part: nothing may hide from the checks. */
async function layOpen(page: Page): Promise<void> {
  for (const summary of await page.locator('summary').all()) await summary.click();
  for (const name of ['how sharply it bends', 'arc', 'show the sheets'])
    await page.getByLabel(name).first().check();
  await rested(page);
}

export function lookTests(browser: () => Browser): void {
  describe.each(Object.keys(SCREENS) as Screen[])('on a %s', (screen) => {
    test.each(SCHEMES)('%s, it looks as it did', async (colorScheme) => {
      const { page } = await openPage(browser(), {
        viewport: SCREENS[screen],
        colorScheme,
        deviceScaleFactor: HALF,
      });
      await page.locator('[data-key="edges.back[1].through[0]"]').focus();
      const shot = await page.screenshot();
      const file = join(PICTURES, `${screen.replace(' ', '-')}-${colorScheme}.png`);
      if (process.env.UPDATE_PICTURES) {
        mkdirSync(PICTURES, { recursive: true });
        writeFileSync(file, shot);
      }
      expect(existsSync(file), `${file} is missing; UPDATE_PICTURES=1 draws it`).toBe(true);
      const share = await differing(shot, readFileSync(file));
      const found = join(freshFolder(), 'found.png');
      if (share > MAY_DIFFER) writeFileSync(found, shot);
      expect(share, `compare ${file} with ${found}`).toBeLessThanOrEqual(MAY_DIFFER);
    });

    test('nothing runs off the side, and what is touched is large enough', async () => {
      const { page } = await openPage(browser(), { viewport: SCREENS[screen], hasTouch: true });
      await layOpen(page);
      const fits = () => page.evaluate('document.documentElement.scrollWidth <= innerWidth');
      expect(await fits()).toBe(true);
      const small = await page.evaluate(`
        [...document.querySelectorAll('button, select, summary, input[type=text], label.choice')]
          .map((node) => ({ what: node.textContent || node.getAttribute('aria-label'), box: node.getBoundingClientRect() }))
          .filter(({ box }) => box.height > 0 && box.height < 44)
          .map(({ what, box }) => what + ' ' + box.height)`);
      expect(small).toEqual([]);
      // A browser asked for letters twice as large; and a desktop at 400 % (WCAG 2.1, 1.4.4 and 1.4.10).
      const browserOf = await page.context().newCDPSession(page);
      await browserOf.send('Page.setFontSizes', { fontSizes: { standard: 32 } });
      expect(await page.evaluate('getComputedStyle(document.documentElement).fontSize')).toBe('36px');
      expect(await fits()).toBe(true);
      await browserOf.send('Page.setFontSizes', { fontSizes: { standard: 16 } });
      await page.setViewportSize({ width: 320, height: 256 });
      await expect.poll(fits).toBe(true);
      await browserOf.detach();
    });
  });

  test('the name, the unit and what is done with the job stand in one row on a tablet, in two on a phone', async () => {
    const { page } = await openPage(browser(), { viewport: { width: 820, height: 1180 } });
    const rows = (): Promise<number> =>
      page.evaluate(`new Set([...document.querySelectorAll('header button, header select, header input')]
        .map((node) => { const { top, height } = node.getBoundingClientRect(); return Math.round(top + height / 2); })).size`);
    expect(await rows()).toBe(1);
    for (const width of [360, 390]) {
      await page.setViewportSize({ width, height: 780 });
      expect(await rows()).toBe(2);
    }
  });

  test.each(['phone', 'tablet upright', 'tablet lying'] as const)(
    '%s: nothing lies over a grip of the bracket, and no words over its line',
    async (screen) => {
      const { page } = await openPage(browser(), { viewport: SCREENS[screen] });
      await begin(page, 'Wall shelf bracket');
      const covered = await page.evaluate(`
        [...document.querySelectorAll('.grip')].filter((grip) => {
          const { left, top, width, height } = grip.querySelector('.reach').getBoundingClientRect();
          return !document.elementFromPoint(left + width / 2, top + height / 2)?.closest('.grip');
        }).map((grip) => grip.dataset.key)`);
      expect(covered).toEqual([]);
      const crossed = await page.evaluate(`
        [...document.querySelectorAll('.apexes text')].filter((text) => text.textContent).flatMap((text) => {
          const { left, right, top, bottom } = text.getBoundingClientRect();
          return [...document.querySelectorAll('.lines .cut, .lines .saw')].flatMap((line) => {
            const matrix = line.getScreenCTM();
            const long = line.getTotalLength();
            return Array.from({ length: 2000 }, (_, i) => line.getPointAtLength((i / 2000) * long).matrixTransform(matrix))
              .filter(({ x, y }) => x > left && x < right && y > top + 3 && y < bottom - 3)
              .map(() => text.textContent);
          });
        })`);
      expect(crossed).toEqual([]);
    },
  );

  test.each([
    ['a phone that lies', { width: 844, height: 390 }],
    ['a laptop at 200 %', { width: 683, height: 384 }],
  ])('on %s the sheet and its buttons are in sight beside the notes', async (_, viewport) => {
    const { page } = await openPage(browser(), { viewport });
    const [sheet, notes] = [
      await page.locator('#sheet').boundingBox(),
      await page.locator('#notes').boundingBox(),
    ];
    expect(sheet!.y + sheet!.height).toBeLessThanOrEqual(viewport.height);
    expect(notes!.x).toBeGreaterThanOrEqual(sheet!.x + sheet!.width);
    expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true);
  });

  test.each(['Hall bench stretcher', 'Wall shelf bracket'])(
    'on a phone the words of what is in hand stand over it and inside the sheet: %s',
    async (name) => {
      const { page } = await openPage(browser(), { viewport: { width: 390, height: 844 } });
      await begin(page, name);
      const sheet = (await page.locator('#drawing').boundingBox())!;
      for (const grip of await page.locator('.grip').all()) {
        await grip.focus();
        const [words, place] = [
          (await page.locator('.notes text').boundingBox())!,
          (await grip.locator('path').boundingBox())!,
        ];
        expect(words.x).toBeGreaterThanOrEqual(sheet.x);
        expect(words.x + words.width).toBeLessThanOrEqual(sheet.x + sheet.width);
        expect(words.y + words.height).toBeLessThanOrEqual(place.y + place.height / 2);
      }
    },
  );

  test('where ends lean a grip past the cut is tied to the end of its line', async () => {
    const { page } = await openPage(browser());
    const ties = (): Promise<string | null> => page.locator('.lines .beyond').getAttribute('d');
    expect(await ties()).toBe('');
    await page.getByText('the job file').click();
    const job = readFileSync(join(root, 'samples', 'hall-bench', 'end-rail.yaml'), 'utf8');
    await page.locator('#job-text').fill(job);
    await rested(page);
    // Both upper corners: 4 in up at 4 degrees the cut stands so far inside the long points.
    const inside = 4 * 25.4 * Math.tan((4 * Math.PI) / 180);
    const [from, to] = [...(await ties())!.matchAll(/M([\d.]+) -101\.6L([\d.]+) -101\.6/g)];
    expect([Number(from![1]), Number(from![2])]).toEqual([expect.closeTo(inside, 2), 0]);
    expect([Number(to![1]), Number(to![2])]).toEqual([expect.closeTo(330.2 - inside, 2), 330.2]);
  });

  test.each([1366, 820, 390])(
    '%i px wide: the starter’s apex words stand under their tick',
    async (width) => {
      const { page } = await openPage(browser(), { viewport: { width, height: 844 } });
      await begin(page, 'A new part, with every key explained');
      const [tick, words] = [
        (await page.locator('.apexes path').boundingBox())!,
        (await page.locator('.apexes text').boundingBox())!,
      ];
      expect(Math.abs(words.y - tick.y - tick.height)).toBeLessThanOrEqual(10);
    },
  );

  test('on paper the page says that it is not the pattern', async () => {
    const { page } = await openPage(browser());
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('#on-paper').isVisible()).toBe(true);
    await page.emulateMedia({ media: null });
    expect(await page.locator('#on-paper').isVisible()).toBe(false);
  });

  test('who has chosen colours for everything sees the line in them', async () => {
    const { page } = await openPage(browser());
    await page.getByLabel('light').selectOption('light');
    await page.emulateMedia({ forcedColors: 'active', colorScheme: 'dark' });
    const [line, ground] = (await page.evaluate(`
      [getComputedStyle(document.querySelector('.lines .cut')).stroke, getComputedStyle(document.getElementById('sheet')).backgroundColor]`)) as string[];
    await page.emulateMedia({ forcedColors: null });
    expect([line, ground]).toEqual(['rgb(255, 255, 255)', 'rgb(0, 0, 0)']);
  });

  describe('for every reader', () => {
    test('axe finds nothing wrong, light or dark', async () => {
      const { page } = await openPage(browser());
      await begin(page, 'Wall shelf bracket');
      await layOpen(page);
      await page.getByLabel('inches').check();
      await rested(page);
      for (const colorScheme of SCHEMES) {
        await page.emulateMedia({ colorScheme });
        expect(await violations(page), colorScheme).toEqual([]);
      }
    });

    test('axe finds nothing wrong where the job has mistakes', async () => {
      const { page } = await openPage(browser());
      await page.getByText('the job file').click();
      await page.locator('#job-text').fill('part: x');
      expect(await violations(page)).toEqual([]);
    });

    test('the light is switched by hand, too', async () => {
      const { page } = await openPage(browser(), { colorScheme: 'light' });
      const ground = () => page.evaluate('getComputedStyle(document.documentElement).backgroundColor');
      const light = await ground();
      await page.getByLabel('light').selectOption('dark');
      expect(await ground()).not.toBe(light);
      await page.reload();
      expect(await ground()).not.toBe(light);
    });

    test('once the hand rests, what has come of it is spoken', async () => {
      const { page } = await openPage(browser());
      await page.locator('[data-key="edges.back[1].through[0]"]').focus();
      await page.keyboard.press('ArrowUp');
      await rested(page);
      expect(await page.locator('#spoken').textContent()).toMatch(/^apex at .*; 4 sheets of letter$/);
    });
  });

  test('nothing is asked of any network, whatever is done', async () => {
    const { page, requests, complaints } = await openPage(browser());
    await layOpen(page);
    await page.getByText('The pattern, full size').click();
    await page.getByText('is among your downloads').waitFor();
    expect(requests.filter((url) => !/^(file|blob|data):/.test(url))).toEqual([]);
    expect(complaints).toEqual([]);
  });
}
