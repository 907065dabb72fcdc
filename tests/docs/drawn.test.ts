import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import pixelmatch from 'pixelmatch';
import { beforeAll, describe, expect, test } from 'vitest';
import { freshFolder, root } from '../cli/run.ts';

const docs = join(root, 'docs');
/** What a reader waits for on a slow line. */
const ALL_PICTURES_BYTES = 600_000;
/** Another machine may blend the edges of letters otherwise, which the threshold passes over; a moved line changes hundreds. */
const DOTS_OFF = 20;
/** Some twenty programs, one after the other, on a busy machine. */
const ALL_COMMANDS_MS = 180_000;

const namesIn = (folder: string): string[] => readdirSync(join(docs, folder)).toSorted();
const PICTURES = ['pictures', 'sketches'].flatMap((folder) =>
  namesIn(folder).map((name) => `${folder}/${name}`),
);

async function dotsOf(file: string) {
  const image = await loadImage(file);
  const { width, height } = image;
  const context = createCanvas(width, height).getContext('2d');
  context.drawImage(image, 0, 0);
  return { width, height, data: context.getImageData(0, 0, width, height).data as Uint8ClampedArray };
}

describe('the pictures of the docs', () => {
  const fresh = freshFolder();
  let said = '';

  beforeAll(async () => {
    const child = spawn(process.execPath, [join(root, 'tools', 'docs-pictures.js'), fresh]);
    child.stderr.setEncoding('utf8').on('data', (words: string) => {
      said += words;
    });
    child.stdout.resume();
    await new Promise((resolve) => child.on('close', resolve));
  }, ALL_COMMANDS_MS);

  test('every command of the pages that they come from runs, without a word of complaint', () => {
    expect(said).toBe('');
    expect(PICTURES.length).toBeGreaterThan(30);
    const drawn = ['pictures', 'sketches'].flatMap((folder) =>
      readdirSync(join(fresh, folder)).map((name) => `${folder}/${name}`),
    );
    expect(drawn.toSorted()).toEqual(PICTURES.toSorted());
  });

  test.each(PICTURES.filter((name) => name.endsWith('.svg')))(
    '%s is what is drawn today (npm run docs)',
    (name) => {
      expect(readFileSync(join(docs, name), 'utf8')).toBe(readFileSync(join(fresh, name), 'utf8'));
    },
  );

  test.each(PICTURES.filter((name) => name.endsWith('.png')))(
    '%s is what is drawn today (npm run docs)',
    async (name) => {
      const [kept, drawn] = await Promise.all([dotsOf(join(docs, name)), dotsOf(join(fresh, name))]);
      expect([drawn.width, drawn.height]).toEqual([kept.width, kept.height]);
      const { width, height } = kept;
      expect(pixelmatch(kept.data, drawn.data, undefined, width, height, { threshold: 0.3 })).toBeLessThan(
        DOTS_OFF,
      );
    },
  );

  test('all are small', () => {
    const bytes = PICTURES.reduce((sum, name) => sum + statSync(join(docs, name)).size, 0);
    expect(bytes).toBeLessThan(ALL_PICTURES_BYTES);
  });
});
