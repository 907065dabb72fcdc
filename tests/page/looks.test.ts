import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import pixelmatch from 'pixelmatch';
import { describe, expect } from 'vitest';
import { freshFolder, root } from '../cli/run.ts';
import { test } from './browser.ts';
import { SCHEMES, SCREENS, type Screen } from './screens.ts';

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

describe.each(Object.keys(SCREENS) as Screen[])('on a %s', (screen) => {
  test.for(SCHEMES)('%s, it looks as it did', async (colorScheme, { openPage }) => {
    const { page } = await openPage({
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
});
