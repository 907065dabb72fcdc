import { describe, expect, test } from 'vitest';
import { type Box, boxesOverlap } from '../../../src/curves/geometry/bounds.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import type { Item, Words } from '../../../src/export/drawing/drawing.ts';
import { textWidth, widthWithFractions } from '../../../src/export/drawing/text-width.ts';
import {
  type LaidStoryStick,
  layOutStoryStick,
  worthReading,
} from '../../../src/export/story-stick/stick-layout.ts';
import { composeStoryStick, storyStickPages } from '../../../src/export/story-stick/stick-pages.ts';
import { stickRow } from '../../../src/part/derived/story-stick.ts';
import { chordLine, REFERENCE_LINE, stationsOf } from '../../../src/part/offsets.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { samplePart } from '../../part/jobs.ts';
import { leg as legWithSlantedEnds } from '../joinery.ts';

function stickOf(
  sample: string,
  paper: string,
  every?: number,
  from: 'reference' | 'chord' = 'reference',
  name?: string,
) {
  const part = { ...samplePart(sample), ...(name && { name }) };
  const rows = part.edges.map((edge) => {
    const base = from === 'chord' ? chordLine(edge) : REFERENCE_LINE;
    return stickRow(part, edge, base, stationsOf(edge, base, part.rule.unit, every));
  });
  const options = { paper: parsePaper(paper), margin: 12.7, overlap: 15 };
  return layOutStoryStick({ part, from, rows: worthReading(rows, part), tolerance: 1 }, options);
}

const wordsOf = (items: readonly Item[]): Words[] =>
  items.flatMap((item) => (item.type === 'words' ? [item] : item.type === 'clip' ? wordsOf(item.items) : []));

/** The box of a word, flat or turned a quarter. */
function boxOf({ text, at, size, anchor, turn = 0, fractions }: Words): Box {
  const width = fractions === undefined ? textWidth(text, size) : widthWithFractions(text, size, fractions);
  const start = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  return turn === 0
    ? { left: at.x + start, right: at.x + start + width, bottom: at.y, top: at.y + size * 0.66 }
    : { left: at.x - size * 0.66, right: at.x, bottom: at.y + start, top: at.y + start + width };
}

const CASES: readonly [sample: string, paper: string, every?: number | undefined, from?: 'chord'][] = [
  ['hall-bench-leg.yaml', 'letter'],
  ['hall-bench-leg.yaml', 'letter', 25.4 / 16],
  ['hall-bench-leg.yaml', 'roll:24in', 25.4 / 4],
  ['garden-arch-rail.yaml', 'a4', 10],
  ['garden-arch-rail.yaml', 'a3', 30],
  ['wall-shelf-bracket.yaml', 'a4', undefined, 'chord'],
  ['hall-bench-stretcher.yaml', '160x200mm'],
];

describe.each(CASES)('the story stick of %s on %s', (sample, paper, every, from) => {
  const stick: LaidStoryStick = stickOf(sample, paper, every, from);
  const pages = [...composeStoryStick(stick)];
  const { sheets } = stick.layout;

  test('has no words on others, on any sheet, and all within its window', () => {
    for (const [i, { drawing }] of pages.entries()) {
      const boxes = wordsOf(drawing.items).map((word) => ({ text: word.text, ...boxOf(word) }));
      const { left, right, bottom, top } = sheets[i]!.window;
      boxes.forEach((a, k) => {
        expect(a.left >= left && a.right <= right + 0.1 && a.bottom >= bottom && a.top <= top, a.text).toBe(
          true,
        );
        for (const b of boxes.slice(k + 1))
          expect(boxesOverlap(a, b), `"${a.text}" on "${b.text}"`).toBe(false);
      });
    }
  });

  test('has each tick at its true station, on the working edge', () => {
    for (const { row, out, pieces } of stick.placed)
      for (const { station } of row.ticks) {
        const found = pieces.some((piece) => {
          const edge = out > 0 ? piece.top : piece.top - stick.rowHeight;
          const at = point(piece.left + station - piece.from, edge);
          return (
            station >= piece.from &&
            station <= piece.to &&
            pages[piece.sheet]!.drawing.items.some(
              (item) =>
                item.type === 'stroke' &&
                item.path[0]?.type === 'line' &&
                Math.hypot(item.path[0].from.x - at.x, item.path[0].from.y - at.y) < 1e-9,
            )
          );
        });
        expect(found).toBe(true);
      }
  });

  test('joins rows end to end between ticks, within the paper', () => {
    for (const { row, pieces } of stick.placed) {
      expect([pieces[0]!.from, pieces.at(-1)!.to]).toEqual([row.from, row.to]);
      for (const [i, piece] of pieces.entries()) {
        const { left, right } = sheets[piece.sheet]!.window;
        expect(piece.left - left).toBeGreaterThanOrEqual(10);
        expect(piece.left + piece.to - piece.from + (piece.isLast ? 0 : 12)).toBeLessThanOrEqual(
          right + 1e-9,
        );
        if (piece.isLast) continue;
        expect(pieces[i + 1]!.from).toBe(piece.to);
        const gap = Math.min(...row.ticks.map(({ station }) => Math.abs(station - piece.to)));
        const spacing = Number.isFinite(row.spacing) ? row.spacing : 16;
        expect(gap).toBeGreaterThanOrEqual(Math.min(8, spacing / 4));
      }
    }
  });

  test('names its landmarks, each once', () => {
    const texts = pages.flatMap(({ drawing }) => wordsOf(drawing.items).map(({ text }) => text));
    const marks = stick.placed.flatMap(({ row }) => row.ticks.filter(({ what }) => what === 'apex'));
    expect(texts.filter((text) => /^apex/.test(text))).toHaveLength(marks.length);
  });

  test('says on every sheet how to join and read it, with a bar to measure', () => {
    for (const { drawing } of pages) {
      const texts = wordsOf(drawing.items).map(({ text }) => text);
      expect(texts).toEqual(expect.arrayContaining(['100 mm', '4″']));
      expect(texts.join(' ')).toMatch(/From end to end: .*±.*straight stick\. .*Tolerance ±/);
    }
    const all = storyStickPages(stick);
    expect(all.names).toEqual([...all.pages].map(({ name }) => name));
  });
});

test('takes few sheets: one for a leg, two for an arch of 1.9 m with both its edges', () => {
  expect(stickOf('hall-bench-leg.yaml', 'letter').layout.sheets).toHaveLength(1);
  expect(stickOf('garden-arch-rail.yaml', 'a4').layout.sheets.length).toBeLessThanOrEqual(2);
});

test('figures along the stick are 5 mm high', () => {
  const [page] = composeStoryStick(stickOf('hall-bench-leg.yaml', 'letter'));
  // Source Sans 3: figures are 0.65 of the type size.
  const sizes = wordsOf(page!.drawing.items).filter(({ text }) => /^\d+$/.test(text) && text !== '1');
  expect(sizes.length).toBeGreaterThan(9);
  for (const { size } of sizes) expect(size * 0.65).toBeCloseTo(5, 6);
});

test('marks the corner where the wood ends at a slant', () => {
  const part = legWithSlantedEnds();
  const rows = part.edges.map((edge) =>
    stickRow(part, edge, REFERENCE_LINE, stationsOf(edge, REFERENCE_LINE, part.rule.unit)),
  );
  const options = { paper: parsePaper('letter'), margin: 12.7, overlap: 15 };
  const stick = layOutStoryStick(
    { part, from: 'reference', rows: worthReading(rows, part), tolerance: 1 },
    options,
  );
  const texts = [...composeStoryStick(stick)].flatMap(({ drawing }) =>
    wordsOf(drawing.items).map(({ text }) => text),
  );
  expect(texts.filter((text) => text.startsWith('corner'))).toHaveLength(2);
});

test('labels stand along the stick while there is room, then upright, then at round stations only', () => {
  expect(stickOf('hall-bench-leg.yaml', 'letter', 2 * 25.4).style).toMatchObject({
    shape: 'below',
    every: 1,
  });
  expect(stickOf('hall-bench-leg.yaml', 'letter', 25.4 / 2).style).toMatchObject({
    shape: 'turned',
    every: 1,
  });
  expect(stickOf('hall-bench-leg.yaml', 'letter', 25.4 / 16).style).toMatchObject({
    shape: 'turned',
    every: 8,
  });
});

test('a stick of an edge that is the reference line is refused', () => {
  const part = samplePart('hall-bench-leg.yaml');
  expect(() =>
    layOutStoryStick(
      { part, from: 'reference', rows: [], tolerance: 1 },
      { paper: parsePaper('a4'), margin: 10, overlap: 15 },
    ),
  ).toThrow(expect.objectContaining({ code: 'gauge.nothing-to-read' }));
});
