import { type Words, words } from '../drawing/drawing.ts';
import {
  FIGURE_HEIGHT,
  FRACTION_DIGIT_HEIGHT,
  LINE_SPACING,
  widthWithFractions,
} from '../drawing/text-width.ts';
import { type Block, centreOf } from '../labels/free-space.ts';

/**
 * Heights of the figures that are tried in turn, mm. A reader who stands sees 5 mm from 700 mm at 25 minutes of arc.
 * Nearly all is read at 24 and over 90% at 10, says the summary of "Letter Size and Legibility", Human Factors 21
 * (1979), 661–670. The distance is assumed.
 */
export const FIGURE_HEIGHTS_MM = [5, 4.2, 3.5, 2.9, 2.5] as const;
/** The figures of a fraction are two thirds as high as the others, and no lower than this, mm. */
const FRACTION_SHARE = 2 / 3;
const MIN_FRACTION_MM = 2.5;
/** Notes on the sheet, read close by. */
export const NOTE_MM = 3.8;
/** White at both ends of a label, and below the letters that hang, parts of the type size. */
const WHITE_SHARE = 0.12;
const BELOW_SHARE = 0.24;

/** The type size in which figures are so high, mm. */
export const typeSize = (figures: number): number => figures / FIGURE_HEIGHT;

/** The type size of the fractions among words of a type size, mm. */
export const fractionSize = (size: number): number =>
  Math.max(size * FIGURE_HEIGHT * FRACTION_SHARE, MIN_FRACTION_MM) / FRACTION_DIGIT_HEIGHT;

export interface TypedLine {
  readonly text: string;
  readonly size: number;
  readonly bold?: boolean;
}

/** Figures and words of a height, mm. */
export const figures = (text: string, height: number): TypedLine => ({ text, size: typeSize(height) });

export const lineWidth = ({ text, size }: TypedLine): number =>
  widthWithFractions(text, size, fractionSize(size));

export const typedWords = (
  { text, size, bold }: TypedLine,
  at: Words['at'],
  anchor: Words['anchor'] = 'start',
  turn = 0,
): Words => ({
  ...words(text, at, size, anchor, turn),
  fractions: fractionSize(size),
  ...(bold && { bold: true }),
});

/** How far a line of figures rises over its baseline, mm. */
const riseOf = ({ text, size }: TypedLine): number =>
  Math.max(size, text.includes('\u2044') ? fractionSize(size) : 0) * (FIGURE_HEIGHT + 0.02);

/** Lines one below the other, from the left or around their middle. */
export function typedBlock(lines: readonly TypedLine[], anchor: 'start' | 'middle' = 'start'): Block {
  const largest = Math.max(...lines.map(({ size }) => size));
  const drops = lines.map((line, i) =>
    i === 0 ? riseOf(line) : Math.max(riseOf(line) + line.size * BELOW_SHARE, line.size * LINE_SPACING),
  );
  const white = largest * WHITE_SHARE;
  return {
    width: Math.max(...lines.map(lineWidth)) + 2 * white,
    height: drops.reduce((sum, drop) => sum + drop, 0) + (lines.at(-1)?.size ?? 0) * BELOW_SHARE + white,
    draw: (box) => {
      let y = box.top - white;
      return lines.map((line, i) => {
        y -= drops[i] ?? 0;
        const x = anchor === 'start' ? box.left + white : centreOf(box).x;
        return typedWords(line, { x, y }, anchor);
      });
    },
  };
}
