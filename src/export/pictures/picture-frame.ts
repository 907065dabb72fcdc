import { type Drawing, type Item, words } from '../drawing/drawing.ts';
import { ANY_FONT, LEADING, textWidth, wrapText } from '../drawing/text-width.ts';

/** A picture for a screen or a note, mm: as wide as a lying letter or A4 sheet leaves room for. */
export const WIDTH_MM = 260;
export const SIDE_MM = 14;
export const INNER_MM = WIDTH_MM - 2 * SIDE_MM;
const TITLE_MM = 7;
const TEXT_MM = 3.6;
export const LABEL_MM = 3;
const LINE_MM = TEXT_MM * LEADING;

/** Broken into lines that fit a picture's width in whatever font its reader has. */
export const pictureLines = (text: string): string[] => wrapText(text, TEXT_MM, INNER_MM / ANY_FONT);

/** What is written round a drawing. */
export interface PictureWords {
  readonly title: string;
  /** Under the title: how it is drawn. */
  readonly head: readonly string[];
  /** Under the drawing. */
  readonly foot: readonly string[];
}

/** Where a drawing may begin over the words at its foot, mm. */
export const floorOver = (foot: readonly string[]): number => SIDE_MM + foot.length * LINE_MM;

/** A drawing that ends at `ceiling`, with its words above and below. */
export function pictureSheet(
  { title, head, foot }: PictureWords,
  ceiling: number,
  drawn: readonly Item[],
): Drawing {
  const top = ceiling + head.length * LINE_MM;
  const line = (text: string, y: number): Item => words(text, { x: SIDE_MM, y }, TEXT_MM);
  return {
    width: WIDTH_MM,
    height: top + TITLE_MM + SIDE_MM,
    items: [
      words(title, { x: SIDE_MM, y: top + TITLE_MM * 0.3 }, titleSize(title)),
      ...head.map((text, i) => line(text, top - LINE_MM * (0.7 + i))),
      ...drawn,
      ...foot.map((text, i) => line(text, SIDE_MM + (foot.length - 1 - i) * LINE_MM)),
    ],
  };
}

/** A long name is set smaller rather than run off the picture. */
const titleSize = (title: string): number => Math.min(TITLE_MM, INNER_MM / (textWidth(title, 1) * ANY_FONT));
