import type { Browser } from 'playwright-core';
import { describe, expect } from 'vitest';
import { pathBounds } from '../../../src/curves/geometry/bounds.ts';
import { piecesLength } from '../../../src/curves/geometry/evaluate.ts';
import { type Point, point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { fullSize } from '../../../src/export/full-size/compose-full-size.ts';
import { fullSizePage } from '../../../src/export/full-size/full-size-files.ts';
import type { Part } from '../../../src/part/part.ts';
import { finishedLine } from '../../../src/part/part-lines.ts';
import { test } from '../../page/browser.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { farthestFrom, meant } from '../drawn-line.ts';
import { svgOf } from '../full-size-files.ts';

/** A CSS inch is 96 px (CSS Values and Units 4, §6.2). */
const PX_PER_MM = 96 / 25.4;

interface Seen {
  readonly length: number;
  readonly box: { readonly width: number; readonly height: number };
  readonly places: readonly Point[];
  readonly size: { readonly width: number; readonly height: number };
  readonly words: number;
}

/** Runs in the page: what it makes of the finished line. */
const LOOK = `(() => {
  const path = document.querySelector('path.cut');
  const length = path.getTotalLength();
  const { width, height } = path.getBBox();
  const places = Array.from({ length: 101 }, (_, i) => path.getPointAtLength((length * i) / 100));
  const size = document.querySelector('svg').getBoundingClientRect();
  return {
    length,
    box: { width, height },
    places: places.map(({ x, y }) => ({ x, y })),
    size: { width: size.width, height: size.height },
    words: document.querySelectorAll('#text text').length,
  };
})()`;

async function seen(browser: Browser, svg: string): Promise<Seen> {
  const page = await browser.newPage();
  await page.setContent(svg);
  const found = await page.evaluate<Seen>(LOOK);
  await page.close();
  return found;
}

/** Browsers reckon in single precision: half of 1/2²⁴ of a few metres, some dozens of times over. */
const SINGLE_MM = 0.005;

const arch = (radius: number): string =>
  `part: Arch\nunits: mm\nedges:\n  under:\n    - from: [0, 0]\n    - line: [1200, 0]\n  over:\n    - from: [0, 90]\n    - arc: [1200, 90]\n      radius: ${radius}\n`;

describe('a browser', () => {
  // Flatter ones it measures along their chord, however they are drawn.
  test.for<[string, Part]>([
    ['the leg', samplePart('hall-bench-leg.yaml')],
    ['the arch rail', samplePart('garden-arch-rail.yaml')],
    ['the bracket', samplePart('wall-shelf-bracket.yaml')],
    ['a half circle', partOf(arch(600))],
    ['an arc of 19 m', partOf(arch(19_000))],
    ['an arc of 100 m', partOf(arch(100_000))],
  ])('%s: finds the line as long, as wide and where it is', async ([, part], { browser }) => {
    const full = fullSize(part);
    const { drawing, origin } = fullSizePage(full);
    const { length, box, places, size, words } = await seen(browser, svgOf(full));
    const pieces = part.exact;
    const exact = pathBounds(finishedLine(part.shape));
    expect(size.width / PX_PER_MM).toBeCloseTo(drawing.width, 1);
    expect(size.height / PX_PER_MM).toBeCloseTo(drawing.height, 1);
    // It measures a path by chords, each 1e-5 or so too short.
    expect(Math.abs(length / piecesLength(pieces) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(box.width - (exact.right - exact.left))).toBeLessThan(2 * FIT_MM + SINGLE_MM);
    expect(Math.abs(box.height - (exact.top - exact.bottom))).toBeLessThan(2 * FIT_MM + SINGLE_MM);
    const onPart = places.map(({ x, y }) => point(x - origin[0], drawing.height - y - origin[1]));
    expect(farthestFrom(meant(pieces), onPart)).toBeLessThan(0.01);
    expect(words).toBeGreaterThan(1);
  });
});
