import { createCanvas } from '@napi-rs/canvas';
import { expect } from 'vitest';
import { type Affine, invert, transformPoint } from '../../src/curves/geometry/affine.ts';
import type { Point } from '../../src/curves/geometry/point.ts';
import type { Page } from '../../src/export/drawing/drawing.ts';
import { patternPages } from '../../src/export/sheets/pattern-pages.ts';
import { writePdf } from '../../src/export/writers/pdf.ts';
import type { Part } from '../../src/part/part.ts';
import type { Layout } from '../../src/tiling/layout.ts';
import { pageMatrix } from '../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../src/tiling/tile.ts';
import { fontBytes } from './font.ts';
import { openPdf } from './read-pdf.ts';
import { type Dots, findRings } from './rings.ts';

/** 200 dots to the inch: a dot is 0.127 mm. */
const SCALE = 200 / 72;
const DOTS_PER_MM = 200 / 25.4;

/** The ring of a register mark, mm. */
const RING_MM = 3;

/**
 * How well sheets set on rings seen in dots join, mm: a ring is found to a seventh of a dot (below), and
 * a sheet reaches three times as far from its rings as they stand apart; the line's own dots come on top.
 */
const JOINED_MM = 0.2;

async function dotsOf(bytes: Uint8Array, page: number): Promise<Dots> {
  const read = await (await openPdf(bytes)).getPage(page);
  const viewport = read.getViewport({ scale: SCALE });
  const [width, height] = [Math.ceil(viewport.width), Math.ceil(viewport.height)];
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  context.fillStyle = 'white';
  context.fillRect(0, 0, width, height);
  await read.render({ canvasContext: context as never, canvas: null, viewport }).promise;
  const { data } = context.getImageData(0, 0, width, height);
  const dark = new Uint8Array(width * height);
  for (let i = 0; i < dark.length; i++) dark[i] = 255 - (data[4 * i] ?? 255);
  return { width, height, dark };
}

const linesOnly = (page: Page): Page => ({
  ...page,
  drawing: { ...page.drawing, items: page.drawing.items.filter(({ type }) => type === 'clip') },
});

interface Pictures {
  readonly layout: Layout;
  readonly whole: Uint8Array;
  readonly lines: Uint8Array;
}

async function picturesOf(part: Part, paper: string): Promise<Pictures> {
  const layout = layOut(part, { paper: parsePaper(paper), margin: 12.7, overlap: 15, turn: 0 });
  const pages = [...patternPages(part, layout, false).pages];
  const font = fontBytes();
  return {
    layout,
    whole: await writePdf(pages, 'whole', font),
    lines: await writePdf(pages.map(linesOnly), 'lines', font),
  };
}

/** The move that lays one pair of points on another: shift and turn, as a hand does it. */
function laidOn([a, b]: readonly [Point, Point], [p, q]: readonly [Point, Point]): Affine {
  const angle = Math.atan2(q.y - p.y, q.x - p.x) - Math.atan2(b.y - a.y, b.x - a.x);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [mx, my] = [(a.x + b.x) / 2, (a.y + b.y) / 2];
  return [cos, sin, -sin, cos, (p.x + q.x) / 2 - cos * mx + sin * my, (p.y + q.y) / 2 - sin * mx - cos * my];
}

/** Middles of the lines that run across one column of dots, none thicker than 0.9 mm. */
function linesAt({ width, height, dark }: Dots, x: number): number[] {
  const found: number[] = [];
  for (let y = 0, from = -1, weight = 0, moment = 0; y <= height; y++) {
    const ink = y < height ? (dark[y * width + x] ?? 0) : 0;
    if (ink > 30) {
      if (from < 0) [from, weight, moment] = [y, 0, 0];
      weight += ink;
      moment += ink * y;
    } else if (from >= 0) {
      if (y - from < 0.9 * DOTS_PER_MM && weight > 200) found.push(moment / weight);
      from = -1;
    }
  }
  return found;
}

/** Page points from the lower left, to dots from the top left. */
const toDots = (dots: Dots): Affine => [SCALE, 0, 0, -SCALE, 0, dots.height];

/** The rings farthest to one side: those of the seam there. */
function downOne(rings: readonly Point[], side: 'left' | 'right'): Point[] {
  const sign = side === 'right' ? 1 : -1;
  const farthest = Math.max(...rings.map(({ x }) => sign * x));
  return rings.filter(({ x }) => farthest - sign * x < DOTS_PER_MM).sort((a, b) => a.y - b.y);
}

/** How far the lines of one picture lie from those of another, mm, at the worst. */
function worstOff(picture: Dots, big: Dots, place: (at: Point) => Point): number {
  const off: number[] = [];
  for (let x = 100; x < picture.width - 100; x += 5)
    for (const y of linesAt(picture, x)) {
      const at = place({ x, y });
      const near = [Math.floor(at.x), Math.floor(at.x) + 1].flatMap((column) => linesAt(big, column));
      off.push(Math.min(...near.map((line) => Math.abs(line - at.y))));
    }
  // Where a line is too steep to be told in one of the two columns it is not seen at all.
  const seen = off.filter((one) => one < DOTS_PER_MM);
  expect(seen.length).toBeGreaterThan(Math.max(60, 0.8 * off.length));
  return Math.max(...seen) / DOTS_PER_MM;
}

/** Two sheets are joined by the rings seen in their pictures, and show the line where one great sheet has it. */
export async function joinByRings(part: Part): Promise<void> {
  const small = await picturesOf(part, 'letter');
  const great = await picturesOf(part, '1300x300mm');
  const [first] = small.layout.sheets;
  const second = small.layout.sheets.find(({ name }) => name === first.neighbours.right)!;
  const page = small.layout.sheets.indexOf(second) + 1;
  const [left, right] = [await dotsOf(small.whole, 1), await dotsOf(small.whole, page)];
  const radius = RING_MM * DOTS_PER_MM;
  const onLeft = downOne(findRings(left, radius), 'right');
  const onRight = downOne(findRings(right, radius), 'left');
  expect(onLeft).toHaveLength(2);
  expect(onRight).toHaveLength(2);

  // The second sheet is laid on the first by its rings alone; only the first is placed by our numbers.
  const joined = laidOn(onRight as [Point, Point], onLeft as [Point, Point]);
  const big = await dotsOf(great.lines, 1);
  const back = invert(pageMatrix(first));
  const onBig = pageMatrix(great.layout.sheets[0]);
  const place = (at: Point): Point =>
    transformPoint(
      toDots(big),
      transformPoint(
        onBig,
        transformPoint(back, transformPoint(invert(toDots(left)), transformPoint(joined, at))),
      ),
    );

  const picture = await dotsOf(small.lines, page);
  expect(worstOff(picture, big, place)).toBeLessThan(JOINED_MM);
  const astray = (at: Point): Point => place({ x: at.x, y: at.y + 0.3 * DOTS_PER_MM });
  expect(worstOff(picture, big, astray)).toBeGreaterThan(JOINED_MM);
}
