import { createCanvas } from '@napi-rs/canvas';
import pixelmatch from 'pixelmatch';
import { expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import { lerp, type Point } from '../../../src/curves/geometry/point.ts';
import type { Page } from '../../../src/export/drawing/drawing.ts';
import { patternPages } from '../../../src/export/sheets/pattern-pages.ts';
import { writePdf } from '../../../src/export/writers/pdf.ts';
import type { Part } from '../../../src/part/part.ts';
import type { Layout, Sheet } from '../../../src/tiling/layout.ts';
import { pageMatrix } from '../../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../../src/tiling/tile.ts';
import { archTop, backLeg } from '../../tiling/parts.ts';
import { fontBytes } from '../font.ts';
import { openPdf } from '../read-pdf.ts';

const font = fontBytes();

/** 150 dots to the inch: the finished line is two dots wide. */
const SCALE = 150 / 72;

/** The picture: 200 × 110 mm round a place of a seam, in dots. */
const [WIDE, HIGH] = [1180, 650];

/** Only what the part itself shows: bars and names stand elsewhere on every paper. */
const linesOnly = (page: Page): Page => ({
  ...page,
  drawing: { ...page.drawing, items: page.drawing.items.filter(({ type }) => type === 'clip') },
});

interface Sheets {
  readonly layout: Layout;
  readonly bytes: Uint8Array;
}

async function sheetsOf(part: Part, paper: string): Promise<Sheets> {
  const layout = layOut(part, { paper: parsePaper(paper), margin: 12.7, overlap: 15, turn: 'auto' });
  return {
    layout,
    bytes: await writePdf([...patternPages(part, layout, false).pages].map(linesOnly), 'lines', font),
  };
}

/** A sheet's picture with a place of the part in its middle. */
async function picture({ layout, bytes }: Sheets, sheet: Sheet, middle: Point): Promise<Uint8ClampedArray> {
  const page = await (await openPdf(bytes)).getPage(layout.sheets.indexOf(sheet) + 1);
  const at = transformPoint(pageMatrix(sheet), middle);
  const height = page.getViewport({ scale: 1 }).height;
  const viewport = page.getViewport({
    scale: SCALE,
    offsetX: WIDE / 2 - at.x * SCALE,
    offsetY: HIGH / 2 - (height - at.y) * SCALE,
  });
  const canvas = createCanvas(WIDE, HIGH);
  const context = canvas.getContext('2d');
  context.fillStyle = 'white';
  context.fillRect(0, 0, WIDE, HIGH);
  await page.render({ canvasContext: context as never, canvas: null, viewport }).promise;
  return context.getImageData(0, 0, WIDE, HIGH).data as Uint8ClampedArray;
}

/** The left half of one picture and the right half of another: the sheets taped along their seam. */
function taped(left: Uint8ClampedArray, right: Uint8ClampedArray): Uint8ClampedArray {
  const both = new Uint8ClampedArray(left);
  for (let y = 0; y < HIGH; y++)
    both.set(right.subarray((y * WIDE + WIDE / 2) * 4, (y + 1) * WIDE * 4), (y * WIDE + WIDE / 2) * 4);
  return both;
}

const dark = (picture: Uint8ClampedArray): number => {
  let count = 0;
  for (let i = 0; i < picture.length; i += 4) if ((picture[i] ?? 255) < 128) count++;
  return count;
};

test.each([
  ['back leg', backLeg],
  ['arch top', archTop],
])('two sheets of a %s joined along their seam show what one great sheet shows', async (_, make) => {
  const part = make();
  const [small, great] = [await sheetsOf(part, 'letter'), await sheetsOf(part, '1300x1300mm')];
  const [a, b] = small.layout.sheets as unknown as [Sheet, Sheet];
  const [from, to] = a.marks.filter(({ sheets }) => sheets.includes(a.name) && sheets.includes(b.name));
  const shown = [0.35, 0.5, 0.65].map(async (share) => {
    const at = lerp(from!.at, to!.at, share);
    return { at, whole: await picture(great, great.layout.sheets[0], at) };
  });
  const { at, whole } = (await Promise.all(shown)).reduce((x, y) => (dark(y.whole) > dark(x.whole) ? y : x));
  const joined = taped(await picture(small, a, at), await picture(small, b, at));
  expect(great.layout.sheets).toHaveLength(1);
  expect(dark(whole)).toBeGreaterThan(1000);
  // The three pages put the lines on other fractions of a dot, so edges may blend otherwise; a line
  // half a dot (0.08 mm) off would differ along its whole length, hundreds of dots.
  expect(pixelmatch(joined, whole, undefined, WIDE, HIGH, { threshold: 0.3 })).toBeLessThan(10);
});

test('a shift of a fifth of a millimetre would be seen', async () => {
  const sheets = await sheetsOf(backLeg(), 'letter');
  const [a] = sheets.layout.sheets;
  const at = a.marks[0]!.at;
  const [here, there] = [await picture(sheets, a, at), await picture(sheets, a, { x: at.x, y: at.y + 0.2 })];
  expect(pixelmatch(here, there, undefined, WIDE, HIGH, { threshold: 0.3 })).toBeGreaterThan(200);
});
