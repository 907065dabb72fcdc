import { describe, expect, test } from 'vitest';
import { pathBox } from '../../src/curves/box.ts';
import type { Drawing, Stroke, Words } from '../../src/export/drawing.ts';
import { composeSawPicture } from '../../src/export/saw-picture.ts';
import { writeSvg } from '../../src/export/svg.ts';
import { ANY_FONT, textWidth } from '../../src/export/type.ts';
import { adviseSawing } from '../../src/shop/sawing.ts';
import { BENCH, SAMPLES, samplePart } from '../part/jobs.ts';

const strokes = ({ items }: Drawing): Stroke[] => items.filter((item) => item.type === 'stroke');
const wordsIn = ({ items }: Drawing): Words[] => items.filter((item) => item.type === 'words');

/** What words cover in any font, left to right. */
function spanOf({ text, at, size, anchor }: Words): readonly [number, number] {
  const width = textWidth(text, size) * ANY_FONT;
  const left = at.x - { start: 0, middle: width / 2, end: width }[anchor];
  return [left, left + width];
}

describe.each([...SAMPLES, ...BENCH])('%s on the saw', (name) => {
  const part = samplePart(name);
  const sawing = adviseSawing(part);
  const picture = composeSawPicture(part, sawing);

  test('stays on its page, and no words run into others', () => {
    const box = pathBox(strokes(picture).flatMap(({ path }) => path));
    expect(box.left).toBeGreaterThan(0);
    expect(box.bottom).toBeGreaterThan(0);
    expect(box.right).toBeLessThan(picture.width);
    expect(box.top).toBeLessThan(picture.height);
    expect(writeSvg(picture, part.name)).not.toMatch(/NaN|Infinity/);
    const all = wordsIn(picture);
    for (const [i, one] of all.entries()) {
      const [left, right] = spanOf(one);
      expect(left, one.text).toBeGreaterThan(0);
      expect(right, one.text).toBeLessThan(picture.width);
      for (const other of all.slice(i + 1)) {
        const [from, to] = spanOf(other);
        const apart =
          left >= to || from >= right || Math.abs(one.at.y - other.at.y) >= Math.min(one.size, other.size);
        expect(apart, `"${one.text}" on "${other.text}"`).toBe(true);
      }
    }
  });

  test('the part lies on its board, each stand under the station that the saw advice tells', () => {
    const board = pathBox(strokes(picture).find(({ style }) => style === 'rule')!.path);
    const cut = pathBox(strokes(picture).find(({ style }) => style === 'cut')!.path);
    expect(cut.left).toBeGreaterThan(board.left - 1e-6);
    expect(cut.right).toBeLessThan(board.right + 1e-6);
    expect(cut.bottom).toBeGreaterThan(board.bottom - 1e-6);
    expect(cut.top).toBeLessThan(board.top + 1e-6);
    const { left, right } = sawing.weights.board;
    const scale = (board.right - board.left) / (right - left);
    const stands = strokes(picture).filter(({ filled, style }) => filled && style === 'mark');
    const tops = stands
      .map(({ path }) => pathBox(path))
      .filter(({ top }) => Math.abs(top - board.bottom) < 1e-6);
    expect(tops.map((box) => (box.left + box.right) / 2 - board.left)).toEqual(
      sawing.support.stands.map(({ station }) => expect.closeTo((station - left) * scale, 6)),
    );
  });

  test('tells the order of cuts, and to follow the manual of the saw', () => {
    const text = wordsIn(picture)
      .map((each) => each.text)
      .join(' ');
    expect(text).toMatch(/1\. .* 2\. /);
    expect(text).toContain('own manual');
  });
});
