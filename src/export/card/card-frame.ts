import type { Box } from '../../curves/geometry/bounds.ts';
import { point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { BODY_MM } from '../cover/text-columns.ts';
import { graduationText } from '../drawing/dimensions.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, truncateToWidth, wrapText } from '../drawing/text-width.ts';
import { scaleRatio } from '../pictures/picture-frame.ts';

export const GUTTER_MM = 8;
const TITLE_SIZES_MM = [10, 8.5, 7] as const;
const QUANTITY_MM = 5.5;
const SUBTITLE_MM = 3.6;
const MAX_NOTE_LINES = 2;
/** From the lower margin to the last line of the sections. */
export const SIGNATURE_HEIGHT_MM = 9;

/** The name, the quantity and the notes; room for the subtitle between them. */
export function titleItems(part: Part, page: Box) {
  const quantity = quantityWords(part);
  const room = page.right - page.left - textWidth(quantity, QUANTITY_MM) - GUTTER_MM;
  const name = typesetMeasures(part.name);
  const size = TITLE_SIZES_MM.find((one) => textWidth(name, one) <= room) ?? TITLE_SIZES_MM[2];
  const base = page.top - size * 0.72;
  const subtitle = base - SUBTITLE_MM * 1.75;
  const notes = noteLines(part, page.right - page.left);
  const lineHeight = BODY_MM * LINE_SPACING;
  const first = subtitle - lineHeight * 1.15;
  return {
    items: [
      words(truncateToWidth(name, size, room), point(page.left, base), size),
      words(quantity, point(page.right, base), QUANTITY_MM, 'end'),
      ...notes.map((note, i) => words(note, point(page.left, first - i * lineHeight), BODY_MM)),
    ],
    subtitle,
    bottom: first - (notes.length - 1) * lineHeight - 3,
  };
}

const quantityWords = ({ quantity, pair }: Part): string =>
  `quantity ${quantity}${pair === 'mirrored' && quantity > 1 ? `, ${quantity / 2} mirrored` : ''}`;

function noteLines({ notes = '' }: Part, width: number): string[] {
  const lines = wrapText(typesetMeasures(notes), BODY_MM, width);
  if (lines.length <= MAX_NOTE_LINES) return lines;
  const last = lines.slice(MAX_NOTE_LINES - 1).join(' ');
  return [...lines.slice(0, MAX_NOTE_LINES - 1), truncateToWidth(last, BODY_MM, width)];
}

/** The wood, the finished sizes and the scale of the drawing, on a baseline, mm. */
export function subtitleItem(
  { rule, stock }: Part,
  finished: string,
  scale: number,
  page: Box,
  y: number,
): Item {
  const facts = [finished, `drawn ${scaleRatio(scale)}`, `lengths to ${graduationText(rule)}`];
  const line = [...(stock?.species === undefined ? [] : [stock.species]), ...facts].join(' · ');
  return words(truncateToWidth(line, SUBTITLE_MM, page.right - page.left), point(page.left, y), SUBTITLE_MM);
}

/** A line across a box at a height, mm. */
export const ruleAcross = ({ left, right }: Pick<Box, 'left' | 'right'>, y: number): Item =>
  polyline('rule', [point(left, y), point(right, y)]);

const SIGNATURE_FIELDS = ['made by', 'date', 'pattern code', 'copy'] as const;

export function signatureItems(page: Box): Item[] {
  const each = (page.right - page.left) / SIGNATURE_FIELDS.length;
  return SIGNATURE_FIELDS.flatMap((field, i): Item[] => {
    const left = page.left + i * each;
    const blank = { left: left + textWidth(field, BODY_MM) + 2, right: left + each - 4 };
    return [words(field, point(left, page.bottom + 0.9), BODY_MM), ruleAcross(blank, page.bottom)];
  });
}

/** The head of the back. */
export function backTitle(part: Part, page: Box): { readonly items: Item[]; readonly bottom: number } {
  const title = `${typesetMeasures(part.name)}: order of cuts`;
  const width = page.right - page.left;
  const size = TITLE_SIZES_MM.find((one) => textWidth(title, one) <= width) ?? TITLE_SIZES_MM[2];
  const base = page.top - size * 0.72;
  return {
    items: [words(truncateToWidth(title, size, width), point(page.left, base), size)],
    bottom: base - size * 0.6,
  };
}
