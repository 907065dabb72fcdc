import { type Drawing, type Item, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, WIDEST_FONT_FACTOR, wrapText } from '../drawing/text-width.ts';

/** A picture for a screen or a note, mm: as wide as a lying letter or A4 sheet leaves room for. */
export const PICTURE_WIDTH_MM = 260;
export const PICTURE_MARGIN_MM = 14;
export const PICTURE_INNER_MM = PICTURE_WIDTH_MM - 2 * PICTURE_MARGIN_MM;
const TITLE_SIZE_MM = 7;
const TEXT_SIZE_MM = 3.6;
export const PICTURE_LABEL_MM = 3;
const LINE_MM = TEXT_SIZE_MM * LINE_SPACING;

/** Broken into lines that fit a picture's width in whatever font its reader has. */
export const wrapPictureText = (text: string): string[] =>
  wrapText(text, TEXT_SIZE_MM, PICTURE_INNER_MM / WIDEST_FONT_FACTOR);

/** What is written round a drawing. */
export interface PictureText {
  readonly title: string;
  /** Under the title: how it is drawn. */
  readonly head: readonly string[];
  /** Under the drawing. */
  readonly foot: readonly string[];
}

/** Where a drawing may begin over the words at its foot, mm. */
export const footTop = (foot: readonly string[]): number => PICTURE_MARGIN_MM + foot.length * LINE_MM;

/** A drawing that ends at `ceiling`, with its words above and below. */
export function framePicture(
  { title, head, foot }: PictureText,
  ceiling: number,
  drawn: readonly Item[],
): Drawing {
  const top = ceiling + head.length * LINE_MM;
  const line = (text: string, y: number): Item => words(text, { x: PICTURE_MARGIN_MM, y }, TEXT_SIZE_MM);
  return {
    width: PICTURE_WIDTH_MM,
    height: top + TITLE_SIZE_MM + PICTURE_MARGIN_MM,
    items: [
      words(title, { x: PICTURE_MARGIN_MM, y: top + TITLE_SIZE_MM * 0.3 }, titleSize(title)),
      ...head.map((text, i) => line(text, top - LINE_MM * (0.7 + i))),
      ...drawn,
      ...foot.map((text, i) => line(text, PICTURE_MARGIN_MM + (foot.length - 1 - i) * LINE_MM)),
    ],
  };
}

/** A long name is set smaller rather than run off the picture. */
const titleSize = (title: string): number =>
  Math.min(TITLE_SIZE_MM, PICTURE_INNER_MM / (textWidth(title, 1) * WIDEST_FONT_FACTOR));
