import { type Item, words } from './drawing.ts';
import { ANY_FONT, LEADING, wrapText } from './type.ts';

/** A picture for a screen or a note, mm: as wide as a lying letter or A4 sheet leaves room for. */
export const WIDTH_MM = 260;
export const SIDE_MM = 14;
export const INNER_MM = WIDTH_MM - 2 * SIDE_MM;
export const TITLE_MM = 7;
export const TEXT_MM = 3.6;
export const LABEL_MM = 3;
export const LINE_MM = TEXT_MM * LEADING;

/** Above a picture so high: what it shows, and a line about it below. */
export const titleItems = (title: string, about: string, height: number): Item[] => [
  words(title, { x: SIDE_MM, y: height - SIDE_MM - TITLE_MM * 0.7 }, TITLE_MM),
  words(about, { x: SIDE_MM, y: height - SIDE_MM - TITLE_MM - LINE_MM * 0.7 }, TEXT_MM),
];

/** A sentence in lines that a picture has room for, in whatever font its reader has. */
export const noteLines = (text: string): string[] => wrapText(text, TEXT_MM, INNER_MM / ANY_FONT);

/** Lines at the foot of a picture. */
export const noteItems = (lines: readonly string[]): Item[] =>
  lines.map((line, i) => words(line, { x: SIDE_MM, y: SIDE_MM + (lines.length - 1 - i) * LINE_MM }, TEXT_MM));
