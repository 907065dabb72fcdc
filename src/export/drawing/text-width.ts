import { printedLetters } from '../../units/font-runs.ts';
import { keepMeasuresTogether, NO_BREAK } from '../../units/typeset.ts';

/** Signs beyond those of ASCII run at least as wide as the widest usual one (½), thousandths of the type size. */
const SIGN_WIDTH = 808;
const SIGN = /[^ -~\p{L}\p{M}\u00a0\u2044]/u;
/** Height of capitals, a part of the type size (the font's own figure). */
export const CAP_HEIGHT = 0.66;
/** Distance from one baseline to the next, parts of the type size. */
export const LINE_SPACING = 1.32;
/** The widest usual sans-serif font: an SVG is shown in whatever font its reader has. */
export const WIDEST_FONT_FACTOR = 1.28;

const FRACTION = /(\d+)\u2044(\d+)/g;
/** The font sets the figures of a fraction small: their width, height and the slash, parts of the type size. */
const FRACTION_DIGIT_WIDTH = 0.367;
export const FRACTION_DIGIT_HEIGHT = 0.402;
const FRACTION_SLASH_WIDTH = 0.086;
/** Height of figures, a part of the type size (the font's own). */
export const FIGURE_HEIGHT = 0.65;

/** A text in runs that are fractions and runs that are none. */
export const splitFractions = (text: string): string[] =>
  text.split(/(\d+\u2044\d+)/).filter((run) => run !== '');

export const isFraction = (run: string): boolean => /^\d+\u2044\d+$/.test(run);

/** How wide words run, mm, with their fractions in a type size of their own. */
export function widthWithFractions(text: string, size: number, fractions: number): number {
  const plain = textWidth(text.replaceAll(FRACTION, ''), size);
  const figures = [...text.matchAll(FRACTION)].reduce((sum, [, over = '', under = '']) => {
    return sum + (over.length + under.length) * FRACTION_DIGIT_WIDTH + FRACTION_SLASH_WIDTH;
  }, 0);
  return plain + figures * fractions;
}

/** How wide words run, mm; never less than they do, for figures in fractions are set narrower. */
export function textWidth(text: string, size: number): number {
  let width = 0;
  for (const printed of printedLetters(text))
    width += SIGN.test(printed.letter) ? Math.max(SIGN_WIDTH, printed.width) : printed.width;
  return (width / 1000) * size;
}

const BREAKABLE_SPACE = /[^\S\u00a0]+/;

/** Words broken into lines, never within a number or at a no-break space; a word too wide is cut. */
export function wrapText(text: string, size: number, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  const words = keepMeasuresTogether(text.trim()).split(BREAKABLE_SPACE);
  for (const word of words.flatMap((long) => splitLongWord(long, size, width))) {
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
