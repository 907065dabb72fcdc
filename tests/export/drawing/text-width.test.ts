import PDFDocument from 'pdfkit';
import { beforeAll, describe, expect, test } from 'vitest';
import { COVER_SAFETY } from '../../../src/export/cover/cover-words.ts';
import { textWidth, truncateToWidth, wrapText } from '../../../src/export/drawing/text-width.ts';
import { safetyWords } from '../../../src/shop/words/safety.ts';
import { typesetMeasures } from '../../../src/units/typeset.ts';
import { fontBytes } from '../font.ts';

const SAFETY = COVER_SAFETY.map((id) => typesetMeasures(safetyWords(id)));

let pdf: PDFKit.PDFDocument;
beforeAll(() => {
  pdf = new PDFDocument({ font: fontBytes() as unknown as string });
  pdf.fontSize(1000);
});

const WORDS = [
  ...SAFETY,
  'AVATAR Back leg 0123456789',
  'offset 12 11⁄32″ scant',
  '1A 12B 3AA',
  '−3 3⁄4 × ½ – “so” ° ′ ″',
];

test('words never run wider than they are reckoned, nor much narrower', () => {
  for (const text of WORDS) {
    const [real, reckoned] = [pdf.widthOfString(text), textWidth(text, 1000)];
    // Kerning and figures in fractions only draw letters together; signs are reckoned generously.
    expect(reckoned, text).toBeGreaterThanOrEqual(real - 1e-6);
    expect(reckoned, text).toBeLessThan(real * 1.5);
  }
});

test('the font has every sign that the sheets print', () => {
  const font = (pdf as unknown as { _font: { font: { hasGlyphForCodePoint(code: number): boolean } } })._font
    .font;
  for (const sign of '−×°′″–—“”’⁄·…±½¼¾')
    expect(font.hasGlyphForCodePoint(sign.codePointAt(0)!), sign).toBe(true);
});

test('a fraction is set in small figures: narrower than the same figures in a row', () => {
  expect(pdf.widthOfString('11⁄32')).toBeLessThan(pdf.widthOfString('1132'));
});

describe('words broken into lines', () => {
  const text = SAFETY.join(' ');

  test.each([20, 40, 90])('no line is wider than %d mm and no word is lost', (width) => {
    const lines = wrapText(text, 3.3, width);
    for (const line of lines) expect(textWidth(line, 3.3)).toBeLessThanOrEqual(width);
    expect(lines.join(' ')).toBe(text);
  });

  test('a word wider than the column is cut, letter by letter if need be', () => {
    expect(wrapText('Wardrobe', 3.3, 4).join('')).toBe('Wardrobe');
    expect(wrapText('Wardrobe', 3.3, 0.1)).toHaveLength(8);
    expect(wrapText('Wardrobe', 3.3, -1)).toHaveLength(8);
  });

  test('a letter of two characters is never halved', () => {
    expect(wrapText('🪵🪵🪵', 3.3, 4)).toEqual(['🪵', '🪵', '🪵']);
    expect(truncateToWidth('🪵🪵🪵', 3.3, 7)).toBe('🪵…');
  });

  test.each(['3 9⁄16″ full', '0.5 mm scant', 'a\u00a0b\u00a0c'])('no line ends within %j', (whole) => {
    const shown = whole.replaceAll('\u00a0', ' ');
    for (let width = textWidth(shown, 3.3); width < 60; width += 0.5)
      expect(wrapText(`Some words that run to ${whole} and on`, 3.3, width).join('\n')).toContain(shown);
  });

  test('nothing makes no line', () => {
    expect(wrapText('', 3.3, 50)).toEqual([]);
  });
});

test('a long name ends in an ellipsis', () => {
  expect(truncateToWidth('Back leg', 5, 100)).toBe('Back leg');
  expect(truncateToWidth('Back leg of a hall bench', 5, 30)).toMatch(/^Back leg.*…$/);
  expect(textWidth(truncateToWidth('Back leg of a hall bench', 5, 30), 5)).toBeLessThanOrEqual(30);
});
