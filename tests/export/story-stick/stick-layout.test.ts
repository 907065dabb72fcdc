import { describe, expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import { type Box, boxesOverlap } from '../../../src/curves/geometry/bounds.ts';
import { point } from '../../../src/curves/geometry/point.ts';
import type { Item, Words } from '../../../src/export/drawing/drawing.ts';
import { textWidth } from '../../../src/export/drawing/text-width.ts';
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

/** The box of a word, flat or turned a quarter; small figures of fractions make it narrower at most. */
function boxOf({ text, at, size, anchor, turn = 0 }: Words): Box {
  const width = textWidth(text, size);
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
  const pages = [...composeStoryStick(stick, false)];

  test('has no words on others, on any sheet', () => {
    for (const { drawing } of pages) {
      const boxes = wordsOf(drawing.items).map((word) => ({ text: word.text, ...boxOf(word) }));
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1))
          expect(boxesOverlap(a, b), `"${a.text}" on "${b.text}"`).toBe(false);
      });
    }
  });

  test('has each tick at its true station, on the working edge', () => {
    const { sheets } = stick.layout;
    for (const { row, edge } of stick.placed)
      for (const { station } of row.ticks) {
        const found = sheets.some((sheet, i) => {
          const at = transformPoint(sheet.toSheet, point(station, edge));
          return pages[i]!.drawing.items.some(
            (item) =>
              item.type === 'clip' &&
              item.items.some(
                (each) =>
                  each.type === 'stroke' &&
                  each.path[0]?.type === 'line' &&
                  Math.hypot(each.path[0].from.x - at.x, each.path[0].from.y - at.y) < 1e-9,
              ),
          );
        });
        expect(found).toBe(true);
      }
  });

  test('names its landmarks, each once', () => {
    const texts = pages.flatMap(({ drawing }) => wordsOf(drawing.items).map(({ text }) => text));
    const marks = stick.placed.flatMap(({ row }) => row.ticks.filter(({ what }) => what === 'apex'));
    expect(texts.filter((text) => /^apex/.test(text))).toHaveLength(marks.length);
  });

  test('says on every sheet how far off is still good, and the pages are called as they come', () => {
    for (const { drawing } of pages) {
      const texts = wordsOf(drawing.items).map(({ text }) => text);
      expect(texts).toContain('100 mm');
      expect(texts.some((text) => text.includes('tolerance ±'))).toBe(true);
    }
    const all = storyStickPages(stick, true);
    expect(all.names).toEqual([...all.pages].map(({ name }) => name));
  });
});

test('its cover asks for the bars that its sheets have: across alone', () => {
  const stick = stickOf('hall-bench-leg.yaml', 'letter');
  const [cover, ...sheets] = [...composeStoryStick(stick, true)].map(({ drawing }) => wordsOf(drawing.items));
  // The lines of its cover are broken where they fill their column.
  expect(cover!.map(({ text }) => text).join(' ')).toMatch(/the 4″ scale bar, across, from end mark/);
  for (const sheet of sheets) expect(sheet.filter(({ text }) => text === '4″')).toHaveLength(1);
});

test('a name too long for its sheet gives way to the edge and the code', () => {
  const name = 'The leg of a bench '.repeat(8).trim();
  const stick = stickOf('hall-bench-leg.yaml', 'letter', 2 * 25.4, 'reference', name);
  const heads = [...composeStoryStick(stick, false)].flatMap(({ drawing }) =>
    wordsOf(drawing.items).filter(({ text }) => text.includes('The leg') && text.includes(' · code ')),
  );
  expect(heads.length).toBeGreaterThan(1);
  for (const { text } of heads) expect(text).toMatch(/, back · code [2-9A-Z]{6}$/);
  expect(heads.some(({ text }) => text.includes('…, back'))).toBe(true);
});

test('labels stand along the stick while there is room, then upright, then at round stations only', () => {
  expect(stickOf('hall-bench-leg.yaml', 'letter', 2 * 25.4).style).toEqual({ turned: false, every: 1 });
  expect(stickOf('hall-bench-leg.yaml', 'letter', 25.4 / 2).style).toEqual({ turned: true, every: 1 });
  expect(stickOf('hall-bench-leg.yaml', 'letter', 25.4 / 16).style).toEqual({ turned: true, every: 4 });
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
