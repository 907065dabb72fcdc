import { type Item, words } from './drawing.ts';
import { ANY_FONT, LEADING, textWidth, wrapText } from './type.ts';

/** A picture for a screen or a note, mm: as wide as a lying letter or A4 sheet leaves room for. */
export const WIDTH_MM = 260;
export const SIDE_MM = 14;
export const INNER_MM = WIDTH_MM - 2 * SIDE_MM;
export const TITLE_MM = 7;
const TEXT_MM = 3.6;
export const LABEL_MM = 3;
export const LINE_MM = TEXT_MM * LEADING;

/** Broken into lines that fit a picture's width in whatever font its reader has. */
export const pictureLines = (text: string): string[] => wrapText(text, TEXT_MM, INNER_MM / ANY_FONT);

/** A long name is set smaller rather than run off the picture. */
const titleSize = (title: string): number => Math.min(TITLE_MM, INNER_MM / (textWidth(title, 1) * ANY_FONT));

/** What a picture shows, and a line or two on how, from its upper edge down. */
export const pictureHead = (title: string, lines: readonly string[], height: number): Item[] => [
  words(title, { x: SIDE_MM, y: height - SIDE_MM - TITLE_MM * 0.7 }, titleSize(title)),
  ...lines.map((line, i) =>
    words(line, { x: SIDE_MM, y: height - SIDE_MM - TITLE_MM - LINE_MM * (0.7 + i) }, TEXT_MM),
  ),
];

/** Lines of words under a picture, the last one at its lower edge. */
export const pictureFoot = (lines: readonly string[]): Item[] =>
  lines.map((line, i) => words(line, { x: SIDE_MM, y: SIDE_MM + (lines.length - 1 - i) * LINE_MM }, TEXT_MM));
