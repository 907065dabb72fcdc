import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { type Drawing, type Item, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, LINE_SPACING, textWidth, WIDEST_FONT_FACTOR, wrapText } from '../drawing/text-width.ts';
import { type PictureView, pictureView } from './picture-view.ts';

/** A picture for a screen or a note, mm: as wide as a landscape letter or A4 sheet leaves room for. */
export const PICTURE_WIDTH_MM = 260;
export const PICTURE_MARGIN_MM = 14;
const INNER_MM = PICTURE_WIDTH_MM - 2 * PICTURE_MARGIN_MM;
const TITLE_SIZE_MM = 7;
const TEXT_SIZE_MM = 3.6;
export const PICTURE_LABEL_MM = 3;
const LINE_MM = TEXT_SIZE_MM * LINE_SPACING;
/** Scales of the drawing board: 1 : 2, 1 : 2.5, …; among the tens also 1 : 12 and 1 : 15. */
const UNITS = [1, 2, 2.5, 3, 4, 5, 6, 8] as const;
const TENS = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8] as const;

const wrapPictureText = (text: string): string[] =>
  wrapText(text, TEXT_SIZE_MM, INNER_MM / WIDEST_FONT_FACTOR);

/** The largest usual scale that is no larger than asked; as much over 1 for small parts. */
export function standardScale(most: number): number {
  const least = (1 / most) * (1 - 1e-9);
  const decade = 10 ** Math.floor(Math.log10(least));
  const decades = [decade, 10 * decade];
  const reductions = decades.flatMap((ten) => (ten >= 10 ? TENS : UNITS).map((step) => step * ten));
  return 1 / (reductions.find((reduction) => reduction >= least) ?? 100 * decade);
}

/** "1 : 5", "2 : 1". */
export const scaleRatio = (factor: number): string =>
  factor > 1 ? `${Number(factor.toPrecision(3))} : 1` : `1 : ${Number((1 / factor).toPrecision(3))}`;

/** The largest scale at which bounds fit, `maxHeight` mm high and with `sides` mm free left and right together. */
export const fitScale = ({ left, right, bottom, top }: Box, maxHeight: number, sides = 0): number =>
  Math.min((INNER_MM - sides) / (right - left), maxHeight / Math.max(top - bottom, Number.EPSILON));

/** The same, as one of the usual scales (mm), and how it reads. */
export function fitStandardScale(bounds: Box, maxHeight: number, sides?: number) {
  const factor = standardScale(fitScale(bounds, maxHeight, sides));
  return { factor, ratio: scaleRatio(factor) };
}

type PictureHeights = Readonly<Record<'floor' | 'bottom' | 'top' | 'ceiling', number>>;

interface PictureContent {
  readonly bounds: Box;
  readonly factor: number;
  readonly below: number;
  readonly above: number;
  readonly right?: number;
  readonly title?: string;
  readonly head: string;
  readonly foot?: readonly string[];
  readonly draw: (view: PictureView, heights: PictureHeights) => readonly Item[];
}

/** Centered, with its title and text above and below. */
export function framePicture(part: Part, content: PictureContent): Drawing {
  const { bounds, factor, below, above, right = 0, title = typesetMeasures(part.name), draw } = content;
  const head = wrapPictureText(content.head);
  const foot = (content.foot ?? []).flatMap(wrapPictureText);
  const floor = PICTURE_MARGIN_MM + foot.length * LINE_MM;
  const bottom = floor + below;
  const top = bottom + (bounds.top - bounds.bottom) * factor;
  const ceiling = top + above;
  const headTop = ceiling + head.length * LINE_MM;
  const view = pictureView(part, factor, {
    x: (PICTURE_WIDTH_MM - right - (bounds.left + bounds.right) * factor) / 2,
    y: bottom - bounds.bottom * factor,
  });
  const line = (text: string, y: number, size = TEXT_SIZE_MM): Item =>
    words(text, { x: PICTURE_MARGIN_MM, y }, size);
  const titleSize = Math.min(TITLE_SIZE_MM, INNER_MM / (textWidth(title, 1) * WIDEST_FONT_FACTOR));
  const items = [
    line(title, headTop + TITLE_SIZE_MM * 0.3, titleSize),
    ...head.map((text, i) => line(text, headTop - LINE_MM * (0.7 + i))),
    ...draw(view, { floor, bottom, top, ceiling }),
    ...foot.map((text, i) => line(text, PICTURE_MARGIN_MM + (foot.length - 1 - i) * LINE_MM)),
  ];
  return { width: PICTURE_WIDTH_MM, height: headTop + TITLE_SIZE_MM + PICTURE_MARGIN_MM, items };
}

/** From margin to margin between two heights, mm. */
export const labelArea = (bottom: number, top: number): Box => ({
  left: PICTURE_MARGIN_MM,
  right: PICTURE_WIDTH_MM - PICTURE_MARGIN_MM,
  bottom,
  top,
});

/** The baseline of a label whose capitals are centered at a height, mm. */
export const labelBaseline = (y: number): number => y - (PICTURE_LABEL_MM * CAP_HEIGHT) / 2;
