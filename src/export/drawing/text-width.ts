import { keepMeasuresTogether, NO_BREAK } from '../../units/typeset.ts';

/** Source Sans 3 Regular from space to tilde, thousandths of the type size; a test compares them with the font. */
const WIDTHS = [
  200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497, 497, 497,
  497, 497, 497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 543, 588, 571, 615, 527, 494, 617, 652, 263,
  479, 579, 486, 727, 647, 664, 566, 664, 569, 534, 536, 645, 515, 786, 513, 476, 539, 303, 350, 303, 497,
  500, 542, 504, 553, 456, 555, 496, 292, 504, 544, 246, 247, 495, 255, 829, 547, 542, 555, 555, 347, 419,
  338, 544, 467, 719, 446, 467, 425, 303, 241, 303, 497,
];

const SPACE = 32;
/** Accented letters, dashes and signs: as wide as the widest of the usual ones (½). */
const OTHER_WIDTH = 808;
/** The fraction stroke U+2044 is narrow, and so are the raised and lowered figures beside it. */
const FRACTION_STROKE = '⁄';
const FRACTION_STROKE_WIDTH = 86;
/** Height of capitals, a part of the type size (the font's own figure). */
export const CAP_HEIGHT = 0.66;
/** Distance from one baseline to the next, parts of the type size. */
export const LINE_SPACING = 1.32;
/** The widest usual sans-serif font: an SVG is shown in whatever font its reader has. */
export const WIDEST_FONT_FACTOR = 1.28;

/** How wide words run, mm; never less than they do, for figures in fractions are set narrower. */
export function textWidth(text: string, size: number): number {
  let width = 0;
  for (const letter of text)
    width +=
      letter === FRACTION_STROKE
        ? FRACTION_STROKE_WIDTH
        : (WIDTHS[((letter === NO_BREAK ? undefined : letter.codePointAt(0)) ?? SPACE) - SPACE] ??
          OTHER_WIDTH);
  return (width / 1000) * size;
}

const BREAKABLE_SPACE = /[^\S\u00a0]+/;

/** Words broken into lines, never within a number or at a no-break space; a word too wide is cut. */
export function wrapText(text: string, size: number, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of keepMeasuresTogether(text.trim())
    .split(BREAKABLE_SPACE)
    .flatMap((long) => splitLongWord(long, size, width))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, size) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  const broken = line === '' ? lines : [...lines, line];
  // Once the lines are broken a plain space does.
  return broken.map((one) => one.replaceAll(NO_BREAK, ' '));
}

function splitLongWord(word: string, size: number, width: number): string[] {
  const pieces: string[] = [];
  let piece = '';
  for (const letter of word) {
    if (piece !== '' && textWidth(piece + letter, size) > width) {
      pieces.push(piece);
      piece = letter;
    } else piece += letter;
  }
  return [...pieces, piece];
}

/** With an ellipsis where the words run wider than `width` mm. */
export function truncateToWidth(text: string, size: number, width: number): string {
  if (textWidth(text, size) <= width) return text;
  let kept = text;
  while (kept !== '' && textWidth(`${kept}…`, size) > width) kept = kept.replace(LAST_LETTER, '');
  return `${kept.trimEnd()}…`;
}

const LAST_LETTER = /.$/su;
