import { createCanvas, loadImage } from '@napi-rs/canvas';
import pixelmatch from 'pixelmatch';
import type { Browser } from 'playwright-core';
import { expect } from 'vitest';
import {
  type Clip,
  type Drawing,
  type Item,
  LINE_APPEARANCES,
  type LineStyle,
  polyline,
  type Stroke,
} from '../../../src/export/drawing/drawing.ts';
import { fullSize } from '../../../src/export/full-size/compose-full-size.ts';
import { fullSizePage, fullSizeSvg } from '../../../src/export/full-size/full-size-files.ts';
import { composePicture } from '../../../src/export/pictures/part-picture.ts';
import { composeSawPicture } from '../../../src/export/pictures/saw-picture.ts';
import { writeSvg } from '../../../src/export/writers/svg.ts';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { test } from '../../page/browser.ts';
import { samplePart } from '../../part/jobs.ts';

/** Dots a millimetre, so that the thinnest line is half a dot wide. */
const DOTS = 5;

interface Dots {
  readonly data: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

/** A file without its words, which no two readers set alike, in dots: readers differ in what an inch has of them. */
const linesOf = (svg: string, { width, height }: Drawing): string =>
  svg
    .replaceAll(/<text.*<\/text>/g, '')
    .replace(
      / width="[^"]*" height="[^"]*"/,
      ` width="${Math.ceil(width * DOTS)}" height="${Math.ceil(height * DOTS)}"`,
    );

async function dotsOf(picture: Buffer): Promise<Dots> {
  const image = await loadImage(picture);
  const context = createCanvas(image.width, image.height).getContext('2d');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, image.width, image.height);
  context.drawImage(image, 0, 0);
  return context.getImageData(0, 0, image.width, image.height);
}

async function inBrowser(browser: Browser, svg: string, css = ''): Promise<Dots> {
  const page = await browser.newPage();
  await page.setContent(`<style>body { margin: 0 } ${css}</style>${svg}`);
  const shot = await page.locator('svg').screenshot();
  await page.close();
  return dotsOf(shot);
}

/** Dots that are not white, in the first; and those that differ. */
function compared(one: Dots, other: Dots): { readonly ink: number; readonly differ: number } {
  const { width, height } = one;
  expect([other.width, other.height]).toEqual([width, height]);
  const white = new Uint8ClampedArray(one.data.length).fill(255);
  const differ = (a: Uint8ClampedArray, b: Uint8ClampedArray): number =>
    pixelmatch(a, b, undefined, width, height, { threshold: 0.3, includeAA: true });
  return { ink: differ(one.data, white), differ: differ(one.data, other.data) };
}

/** Edges of lines, which no two readers grey alike. */
const MAY_DIFFER = 0.06;

const STYLES = Object.keys(LINE_APPEARANCES) as LineStyle[];

const swatch = (...items: Item[]): Drawing => ({ width: 60, height: 6 * STYLES.length, items });
const styleLine = (style: LineStyle, i: number): Stroke =>
  polyline(style, [
    { x: 2, y: 6 * i + 3.1 },
    { x: 58, y: 6 * i + 3.1 },
  ]);

const clipped: Clip = {
  type: 'clip',
  left: 10,
  bottom: 9,
  right: 40,
  top: 50,
  items: STYLES.map(styleLine),
};

const leg = samplePart('hall-bench-leg.yaml');
const full = fullSize(leg, { parallel: 10 });

test.for<[string, () => Drawing, (drawing: Drawing) => string]>([
  ['every kind of line', () => swatch(...STYLES.map(styleLine)), (drawing) => writeSvg(drawing, 'Lines')],
  ['a part with its curvature', () => composePicture(leg), (drawing) => writeSvg(drawing, leg.name)],
  ['the full size', () => fullSizePage(full).drawing, (drawing) => fullSizeSvg(leg, full, drawing)],
  ['what is cut off by a rectangle', () => swatch(clipped), (drawing) => writeSvg(drawing, 'Lines')],
  [
    'the board on the saw',
    () => composeSawPicture(leg, adviseSawing(leg)),
    (drawing) => writeSvg(drawing, leg.name),
  ],
])('%s looks the same to a reader that knows no style sheets', async ([, compose, write], { browser }) => {
  const drawing = compose();
  const svg = linesOf(write(drawing), drawing);
  expect(svg).not.toMatch(/<style|style=/);
  const { ink, differ } = compared(await inBrowser(browser, svg), await dotsOf(Buffer.from(svg)));
  expect(ink).toBeGreaterThan(500);
  expect(differ / ink).toBeLessThan(MAY_DIFFER);
});

test('a style sheet of whoever shows it has the last word', async ({ browser }) => {
  const drawing = composePicture(leg);
  const svg = linesOf(writeSvg(drawing, leg.name), drawing);
  const css = `.${STYLES.join(', .')} { stroke: none } .cut { stroke: #ff0000 }`;
  const { data } = await inBrowser(browser, svg, css);
  const places = Array.from({ length: data.length / 4 }, (_, i) => data.subarray(4 * i, 4 * i + 3));
  expect(places.some(([r, g, b]) => r === 255 && g! < 60 && b! < 60)).toBe(true);
  expect(places.every(([r]) => r === 255)).toBe(true);
});
