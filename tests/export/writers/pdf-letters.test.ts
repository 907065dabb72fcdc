import { OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import PDFDocument from 'pdfkit';
import { describe, expect, test } from 'vitest';
import type { Words } from '../../../src/export/drawing/drawing.ts';
import { textWidth } from '../../../src/export/drawing/text-width.ts';
import { writePdf } from '../../../src/export/writers/pdf.ts';
import { fontRuns, lostLetters, printedLetters } from '../../../src/units/font-runs.ts';
import { FONT_TABLES, type FontSubset } from '../../../src/units/font-tables.ts';
import { groupConsecutive } from '../../../src/units/lists.ts';
import { ALPHABETS } from '../alphabets.ts';
import { fontBytes } from '../font.ts';
import { openPdf, readPdf } from '../read-pdf.ts';

const SUBSETS = Object.keys(FONT_TABLES) as FontSubset[];

interface FontReader {
  readonly characterSet: readonly number[];
  hasGlyphForCodePoint(code: number): boolean;
  glyphForCodePoint(code: number): { readonly id: number };
  readonly hmtx: { readonly metrics: { get(i: number): { readonly advance: number } } };
  readonly hhea: { readonly numberOfMetrics: number };
}

function fontOf(subset: FontSubset): FontReader {
  const pdf = new PDFDocument({ font: fontBytes(subset) as unknown as string });
  return (pdf as unknown as { _font: { font: FontReader } })._font.font;
}

const SIZE = 5;
const words = (text: string, anchor: Words['anchor'], y: number): Words => ({
  type: 'words',
  text,
  at: { x: 200, y },
  size: SIZE,
  anchor,
});

const written = (texts: readonly string[]) => {
  const items = texts.flatMap((text, i) =>
    (['start', 'middle', 'end'] as const).map((anchor, k) => words(text, anchor, 20 + 30 * i + 10 * k)),
  );
  const drawing = { width: 600, height: 60 + 30 * texts.length, items };
  return writePdf([{ name: '1', drawing }], 'letters', fontBytes);
};

/** Words of one line on the page, from the left. */
async function linesOf(bytes: Uint8Array): Promise<{ text: string; left: number; right: number }[]> {
  const { pages } = await readPdf(bytes);
  const inRows = pages[0]!.words.toSorted((a, b) => Math.round(a.at.y) - Math.round(b.at.y));
  return groupConsecutive(inRows, ({ at }) => Math.round(at.y)).map(([, row]) => {
    const inOrder = row.toSorted((a, b) => a.at.x - b.at.x);
    const ends = inOrder.map(({ at, width }) => at.x + width);
    const text = inOrder.map((one) => one.text).join('');
    return { text, left: inOrder[0]!.at.x, right: Math.max(...ends) };
  });
}

/** The numbers of all glyphs that a reader draws; 0 is the empty box. */
async function glyphsOf(bytes: Uint8Array): Promise<number[]> {
  const pdf = await openPdf(bytes);
  const { fnArray, argsArray } = await (await pdf.getPage(1)).getOperatorList();
  return fnArray.flatMap((call, i) =>
    call === OPS.showText
      ? (argsArray[i] as [(number | { originalCharCode: number })[]])[0].flatMap((glyph) =>
          typeof glyph === 'number' ? [] : [glyph.originalCharCode],
        )
      : [],
  );
}

describe('the tables of the font', () => {
  test.each(SUBSETS)('%s has the letters and widths of its file', (subset) => {
    const font = fontOf(subset);
    const packed = FONT_TABLES[subset].split(' ').flatMap((run) => {
      const [start, widths] = run.split(':') as [string, string];
      return widths.match(/../g)!.map((width, i) => [Number.parseInt(start, 16) + i, width] as const);
    });
    const earlier = SUBSETS.slice(0, SUBSETS.indexOf(subset)).map(fontOf);
    const has = new Set<number>();
    for (const [code, width] of packed) {
      if (width === '..') continue;
      has.add(code);
      expect(font.hasGlyphForCodePoint(code), `U+${code.toString(16)}`).toBe(true);
      const { metrics } = font.hmtx;
      const glyph = Math.min(font.glyphForCodePoint(code).id, font.hhea.numberOfMetrics - 1);
      expect(Number.parseInt(width, 36), `U+${code.toString(16)}`).toBe(metrics.get(glyph).advance);
    }
    const unseen = [0x200b, 0xfeff, 0xffff];
    const missing = font.characterSet.filter(
      (code) =>
        !has.has(code) && !unseen.includes(code) && !earlier.some((one) => one.hasGlyphForCodePoint(code)),
    );
    expect(missing).toEqual([]);
  });
});

describe('every alphabet on paper', () => {
  test.each(Object.entries(ALPHABETS))('%s reads back whole, at any anchor', async (_, text) => {
    expect(lostLetters(text).size).toBe(0);
    const bytes = await written([text]);
    const lines = await linesOf(bytes);
    const solid = (line: string): string => line.replaceAll(' ', '');
    expect(lines.map((line) => solid(line.text))).toEqual(Array(3).fill(solid(text)));
    const [start, middle, end] = lines;
    const anchor = (200 / 25.4) * 72;
    expect(start!.left).toBeCloseTo(anchor, 1);
    expect((middle!.left + middle!.right) / 2).toBeCloseTo(anchor, 0);
    expect(end!.right).toBeCloseTo(anchor, 0);
    const drawn = ((start!.right - start!.left) / 72) * 25.4;
    expect(textWidth(text, SIZE)).toBeGreaterThanOrEqual(drawn - 1e-3);
    expect(textWidth(text, SIZE)).toBeLessThan(drawn * 1.15);
    expect(await glyphsOf(bytes)).not.toContain(0);
  });

  test.each(Object.entries(ALPHABETS))('%s typed as letters with marks reads the same', async (_, text) => {
    const marked = text.normalize('NFD');
    expect(fontRuns(marked)).toEqual(fontRuns(text));
    expect(textWidth(marked, SIZE)).toBe(textWidth(text, SIZE));
  });

  test('a page of plain English carries one file of the font, and a mixed one those that it needs', async () => {
    const embedded = async (text: string) =>
      (
        Buffer.from(await written([text]))
          .toString('latin1')
          .match(/\/FontFile/g) ?? []
      ).length;
    expect(await embedded('Back leg 3⁄4″ ½ ° × − “so” é')).toBe(1);
    expect(await embedded('Łuk')).toBe(2);
    expect(await embedded('Łuk Ножка Ξύλο')).toBe(4);
  });

  test('a font in one file is used for all letters', async () => {
    const drawing = { width: 400, height: 40, items: [words('Łuk', 'start', 20)] };
    await expect(writePdf([{ name: '1', drawing }], 'one', fontBytes())).resolves.toBeInstanceOf(Uint8Array);
  });
});

describe('signs and letters that no file carries', () => {
  const printed = (text: string): string =>
    printedLetters(text)
      .map(({ letter }) => letter)
      .join('');

  test.each([
    ['≤ 3 ≥ 4', '<= 3 >= 4'],
    ['A → B ← C', 'A -> B <- C'],
    ['≈ 5 ≠ 6', '~ 5 =/= 6'],
    ['⌀ 8', 'Ø 8'],
    ['☐ done ✓', '[] done [x]'],
    ['⅛ ⅝ ⅓', '1⁄8 5⁄8 1⁄3'],
    ['№ 5 ℃ ﬁt', '№ 5 °C fit'],
    ['Ω Å K', 'Ω Å K'],
    ['a‑b‐c', 'a-b-c'],
    ['zero\u200bwidth\u200d', 'zerowidth'],
    ['ready ✔️', 'ready [x]'],
    ['Ｆｕｌｌ', 'Full'],
  ])('%j stands as %j, without a word', (text, paper) => {
    expect(printed(text)).toBe(paper);
    expect(lostLetters(text).size).toBe(0);
  });

  test.each([
    ['木の脚', '???'],
    ['ראש', '???'],
    ['😀', '?'],
    ['10⁵ x₂', '10? x?'],
    ['ȃ', 'a'],
    ['ḿ q̌', 'ḿ q'],
  ])('%j is told and stands as %j', async (text, paper) => {
    expect(printed(text)).toBe(paper);
    expect(lostLetters(text).size).toBeGreaterThan(0);
    const bytes = await written([text]);
    expect((await linesOf(bytes))[0]!.text.replaceAll(' ', '')).toBe(paper.replaceAll(' ', ''));
    expect(await glyphsOf(bytes)).not.toContain(0);
  });
});
