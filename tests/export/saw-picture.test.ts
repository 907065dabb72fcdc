import { describe, expect, test } from 'vitest';
import { pathBox } from '../../src/curves/box.ts';
import { chordsOf, passes } from '../../src/curves/chords.ts';
import { composeSawPicture } from '../../src/export/saw-picture.ts';
import { CAPITALS } from '../../src/export/type.ts';
import { adviseSawing } from '../../src/shop/sawing.ts';
import { BENCH, partOf, SAMPLES, samplePart } from '../part/jobs.ts';
import { expectOnPicture, spanOf } from './on-picture.ts';
import { strokesOf, wordsOf } from './words-on.ts';

describe.each([...SAMPLES, ...BENCH])('%s on the saw', (name) => {
  const part = samplePart(name);
  const sawing = adviseSawing(part);
  const picture = composeSawPicture(part, sawing);
  const [strokes, all] = [strokesOf(picture.items), wordsOf(picture.items)];

  test('stays on its page, and no words run into others', () => {
    expectOnPicture(picture);
    for (const [i, one] of all.entries()) {
      const [left, right] = spanOf(one);
      for (const other of all.slice(i + 1)) {
        const [from, to] = spanOf(other);
        const apart =
          left >= to || from >= right || Math.abs(one.at.y - other.at.y) >= Math.min(one.size, other.size);
        expect(apart, `"${one.text}" on "${other.text}"`).toBe(true);
      }
    }
  });

  test('what is said of a bend stands clear of the part and of the edge of its board', () => {
    const board = strokes.find(({ style }) => style === 'rule')!;
    const lines = [board, ...strokes.filter(({ style }) => style === 'cut' || style === 'saw')];
    const chords = lines.flatMap(({ path }) => chordsOf(path));
    for (const one of all.filter(({ text }) => /: (hollow|round|relief cut|crosscut)/.test(text))) {
      const [left, right] = spanOf(one);
      const box = { left, right, bottom: one.at.y, top: one.at.y + CAPITALS * one.size };
      expect(
        chords.some((chord) => passes(chord, box)),
        one.text,
      ).toBe(false);
    }
  });

  test('the part lies on its board, each stand under the station that the saw advice tells', () => {
    const board = pathBox(strokes.find(({ style }) => style === 'rule')!.path);
    const cut = pathBox(strokes.find(({ style }) => style === 'cut')!.path);
    expect(cut.left).toBeGreaterThan(board.left - 1e-6);
    expect(cut.right).toBeLessThan(board.right + 1e-6);
    expect(cut.bottom).toBeGreaterThan(board.bottom - 1e-6);
    expect(cut.top).toBeLessThan(board.top + 1e-6);
    const { left, right } = sawing.weights.board;
    const scale = (board.right - board.left) / (right - left);
    const stands = strokes.filter(({ filled, style }) => filled && style === 'mark');
    const tops = stands
      .map(({ path }) => pathBox(path))
      .filter(({ top }) => Math.abs(top - board.bottom) < 1e-6);
    expect(tops.map((box) => (box.left + box.right) / 2 - board.left)).toEqual(
      sawing.support.stands.map(({ station }) => expect.closeTo((station - left) * scale, 6)),
    );
  });

  test('tells the order of cuts, and to follow the manual of the saw', () => {
    const text = all.map((each) => each.text).join(' ');
    expect(text).toMatch(/1\. .* 2\. /);
    expect(text).toContain('own manual');
  });
});

test('a stretch as long as the board is named over its bar, on the picture', () => {
  // A deep arch over a small table: the outer line hangs over its side all along.
  const arch = partOf(
    'part: Arch\nunits: mm\nstock: {thickness: 45}\nedges:\n' +
      '  inner: [from: [0, 0], {arc: [2400, 0], rise: 420}]\n' +
      '  outer: [from: [0, 140], {arc: [2400, 140], rise: 410}]\n',
  );
  const sawing = adviseSawing(arch);
  expect(sawing.support.tips.some(({ from, to }) => to - from > 2300)).toBe(true);
  expectOnPicture(composeSawPicture(arch, sawing));
});
