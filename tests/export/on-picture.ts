import { expect } from 'vitest';
import { pathBounds } from '../../src/curves/geometry/bounds.ts';
import type { Drawing, Words } from '../../src/export/drawing/drawing.ts';
import { textWidth, WIDEST_FONT_FACTOR } from '../../src/export/drawing/text-width.ts';
import { writeSvg } from '../../src/export/writers/svg.ts';
import { strokesOf, wordsOf } from './words-on.ts';

/** From where to where words run in whatever font a picture's reader has, mm. */
export function spanOf({ text, at, size, anchor }: Words): readonly [left: number, right: number] {
  const width = textWidth(text, size) * WIDEST_FONT_FACTOR;
  const left = at.x - { start: 0, middle: width / 2, end: width }[anchor];
  return [left, left + width];
}

/** Every line and all words of a picture lie on it, and it can be written. */
export function expectOnPicture(picture: Drawing): void {
  const box = pathBounds(strokesOf(picture.items).flatMap(({ path }) => path));
  expect(box.left).toBeGreaterThan(0);
  expect(box.bottom).toBeGreaterThan(0);
  expect(box.right).toBeLessThan(picture.width);
  expect(box.top).toBeLessThan(picture.height);
  for (const words of wordsOf(picture.items)) {
    const [left, right] = spanOf(words);
    expect(left, words.text).toBeGreaterThan(0);
    expect(right, words.text).toBeLessThan(picture.width);
  }
  expect(writeSvg(picture, 'picture')).not.toMatch(/NaN|Infinity/);
}
