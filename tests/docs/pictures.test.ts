import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import pixelmatch from 'pixelmatch';
import { expect, test } from 'vitest';
import { composePicture } from '../../src/export/pictures/part-picture.ts';
import { writeSvg } from '../../src/export/writers/svg.ts';
import { freshFolder, root } from '../cli/run.ts';
import { samplePart } from '../part/jobs.ts';

const samples = join(root, 'samples');

async function dotsOf(file: string) {
  const image = await loadImage(file);
  const { width, height } = image;
  const context = createCanvas(width, height).getContext('2d');
  context.drawImage(image, 0, 0);
  return { width, height, data: context.getImageData(0, 0, width, height).data as Uint8ClampedArray };
}

test('the leg with its curvature in the README is what show draws (npm run picture)', () => {
  const part = samplePart('hall-bench-leg.yaml');
  const drawn = writeSvg(composePicture(part), part.name);
  expect(readFileSync(join(samples, 'hall-bench-leg.svg'), 'utf8')).toBe(drawn);
});

/**
 * Dots in which a picture differs from the one that a tool draws anew. The tools bring their own renderer and font; on
 * another machine it may blend an edge otherwise, which the threshold passes over.
 */
async function dotsOff(picture: string, tool: string): Promise<number> {
  const file = join(freshFolder(), 'fresh.png');
  const { status, stderr } = spawnSync(process.execPath, [join(root, 'tools', tool), file], {
    encoding: 'utf8',
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  const [kept, fresh] = await Promise.all([dotsOf(join(samples, picture)), dotsOf(file)]);
  expect([fresh.width, fresh.height]).toEqual([kept.width, kept.height]);
  return pixelmatch(kept.data, fresh.data, undefined, kept.width, kept.height, { threshold: 0.3 });
}

test('the sheets in the README are those that print makes (npm run picture)', async () => {
  // A word or line elsewhere changes hundreds.
  expect(await dotsOff('hall-bench-leg.png', 'picture.js')).toBeLessThan(20);
});

test('the page in the README is the one that is built (npm run picture)', async () => {
  // A title that loses its last letter changes 13; a button's word that grows and moves its neighbours, hundreds.
  expect(await dotsOff('hall-bench-leg-page.png', 'page-picture.js')).toBeLessThan(10);
});
