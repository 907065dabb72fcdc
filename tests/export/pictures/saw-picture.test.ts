import { describe, expect, test } from 'vitest';
import { type Box, boxesOverlap, inflate, pathBounds } from '../../../src/curves/geometry/bounds.ts';
import { type Chord, flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import { distance, lerp } from '../../../src/curves/geometry/point.ts';
import { printedLengthWords, sentence } from '../../../src/export/drawing/dimensions.ts';
import type { Stroke, Words } from '../../../src/export/drawing/drawing.ts';
import { CAP_HEIGHT } from '../../../src/export/drawing/text-width.ts';
import { MAX_DISTANCE_WITHOUT_LEADER_MM } from '../../../src/export/labels/place-labels.ts';
import { composeSawPicture } from '../../../src/export/pictures/saw-picture.ts';
import type { Part } from '../../../src/part/part.ts';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { cutSteps } from '../../../src/shop/words/cut-order.ts';
import { safetyNote, signalled } from '../../../src/shop/words/safety.ts';
import { BENCH, partOf, SAMPLES, samplePart } from '../../part/jobs.ts';
import { expectOnPicture, spanOf } from '../on-picture.ts';
import { crosses, strokesOf, wordsOf } from '../words-on.ts';

/** What can hurt at the saw whatever the part. */
const ALWAYS = ['saw.fingers', 'saw.guide', 'saw.wear', 'saw.manual'] as const;

const isOfBend = ({ text }: Words): boolean => /: (hollow|round|relief cut|crosscut)/.test(text);
/** A bend's ring, 1.2 mm in radius: the holes of joints are drawn to scale. */
const isRing = ({ style, path: [one, ...more] }: Stroke): boolean =>
  style === 'mark' && one?.type === 'arc' && one.radius === 1.2 && more.length === 0;

/** The shortest way from words to a ring, short of the line that runs through the ring. */
function gapBetween(words: Box, ring: Box): Chord {
  const clamp = (low: number, x: number, high: number): number => Math.min(Math.max(low, x), high);
  const middle = { x: (ring.left + ring.right) / 2, y: (ring.bottom + ring.top) / 2 };
  const from = {
    x: clamp(words.left, middle.x, words.right),
    y: clamp(words.bottom, middle.y, words.top),
  };
  const off = distance(from, middle);
  return { from, to: lerp(middle, from, (ring.right - ring.left) / 2 / off) };
}

const thin = (width: number): string =>
  `part: Thin ogee\nunits: mm\nstock: {thickness: 45}\nallowance: {saw: 2}\nedges:\n  inner:\n    - from: [0, 0]\n` +
  `    - batten: [1500, 90]\n      through: [[400, 120], [1000, 50]]\n  outer:\n    - from: [0, ${width}]\n` +
  `    - batten: [1500, ${90 + width}]\n      through: [[400, ${120 + width}], [1000, ${50 + width}]]\n`;

const PARTS: [string, Part][] = [
  ...[...SAMPLES, ...BENCH].map((name): [string, Part] => [name, samplePart(name)]),
  ['an ogee 28 mm wide', partOf(thin(28))],
  ['an ogee 45 mm wide', partOf(thin(45))],
];

describe.each(PARTS)('%s on the saw', (_, part) => {
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

  test('the label of a bend covers neither the part nor the edge of its board', () => {
    const board = strokes.find(({ style }) => style === 'rule')!;
    const lines = [board, ...strokes.filter(({ style }) => style === 'cut' || style === 'saw')];
    const chords = lines.flatMap(({ path }) => flatten(path));
    for (const one of all.filter(isOfBend)) {
      const [left, right] = spanOf(one);
      const box = { left, right, bottom: one.at.y, top: one.at.y + CAP_HEIGHT * one.size };
      expect(
        chords.some((chord) => segmentIntersectsBox(chord, box)),
        one.text,
      ).toBe(false);
    }
  });

  test('the label of a bend is beside its ring, across no line of the part, or has a leader line', () => {
    const rings = strokes.filter(isRing).map(({ path }) => pathBounds(path));
    const leads = strokes.filter(({ style }) => style === 'lead').map(({ path }) => pathBounds(path));
    const said = all.filter(isOfBend);
    expect(said).toHaveLength(rings.length);
    const lines = flatten(strokes.filter(({ style }) => style === 'cut').flatMap(({ path }) => path));
    for (const [i, one] of said.entries()) {
      const [left, right] = spanOf(one);
      const box = { left, right, bottom: one.at.y, top: one.at.y + CAP_HEIGHT * one.size };
      if (leads.some((lead) => boxesOverlap(lead, inflate(box, 1)))) continue;
      const gaps = rings.map((ring) => gapBetween(box, ring));
      const own = distance(gaps[i]!.from, gaps[i]!.to);
      for (const { from, to } of gaps) expect(distance(from, to), one.text).toBeGreaterThan(own - 1);
      expect(own, one.text).toBeLessThan(MAX_DISTANCE_WITHOUT_LEADER_MM + 1);
      expect(
        lines.some((line) => crosses(line, gaps[i]!)),
        `"${one.text}" across a line`,
      ).toBe(false);
    }
  });

  test('the unit of the stations is over the end of their axis', () => {
    const named = all.find(({ text }) => text.startsWith('stations, '))!;
    const scale = strokes.map(({ path }) => pathBounds(path)).filter(({ bottom }) => bottom < named.at.y);
    const end = Math.max(...scale.filter(({ top, bottom }) => top === bottom).map(({ right }) => right));
    expect(spanOf(named)[1]).toBeCloseTo(end, 6);
  });

  test('the part is on its board, each stand under the station of the saw advice', () => {
    const board = pathBounds(strokes.find(({ style }) => style === 'rule')!.path);
    const cut = pathBounds(strokes.find(({ style }) => style === 'cut')!.path);
    expect(cut.left).toBeGreaterThan(board.left - 1e-6);
    expect(cut.right).toBeLessThan(board.right + 1e-6);
    expect(cut.bottom).toBeGreaterThan(board.bottom - 1e-6);
    expect(cut.top).toBeLessThan(board.top + 1e-6);
    const { left, right } = sawing.weights.board;
    const scale = (board.right - board.left) / (right - left);
    const stands = strokes.filter(({ filled, style }) => filled && style === 'mark');
    const tops = stands
      .map(({ path }) => pathBounds(path))
      .filter(({ top }) => Math.abs(top - board.bottom) < 1e-6);
    expect(tops.map((box) => (box.left + box.right) / 2 - board.left)).toEqual(
      sawing.support.stands.map(({ station }) => expect.closeTo((station - left) * scale, 6)),
    );
  });

  test('numbers the cuts in their order and tells what to heed at the saw', () => {
    const text = all.map((each) => each.text).join(' ');
    const steps = cutSteps(part, sawing, printedLengthWords(part.rule)).length;
    const numbers = [...text.matchAll(/(?<=^| )(\d+)\. (?=[A-Z])/g)].map(([, number]) => Number(number));
    expect(numbers).toEqual(Array.from({ length: steps }, (_, i) => i + 1));
    for (const id of ALWAYS) expect(text).toContain(sentence(signalled(safetyNote(id, part.rule.unit))));
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
