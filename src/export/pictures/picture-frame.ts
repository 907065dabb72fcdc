import type { Box } from '../../curves/geometry/bounds.ts';
import type { Part } from '../../part/part.ts';
import { type Drawing, type Item, words } from '../drawing/drawing.ts';
import { standardScale } from '../drawing/drawing-scale.ts';
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

/** Broken into lines that fit a picture's width in whatever font its reader has. */
export const wrapPictureText = (text: string): string[] =>
  wrapText(text, TEXT_SIZE_MM, INNER_MM / WIDEST_FONT_FACTOR);

/**
 * The largest scale, mm of the picture to a mm of the part, at which some bounds fit a picture.
 * @param maxHeight a tall part is drawn smaller rather than let the picture grow far higher than it is wide, mm
 * @param sides left free at both sides together, mm
 */
export const fitScale = ({ left, right, bottom, top }: Box, maxHeight: number, sides = 0): number =>
  Math.min((INNER_MM - sides) / (right - left), maxHeight / Math.max(top - bottom, Number.EPSILON));

/** The same, as one of the usual scales of the drawing board. */
export const fitStandardScale = (bounds: Box, maxHeight: number, sides?: number): number =>
  standardScale(fitScale(bounds, maxHeight, sides));

/** Heights of a picture from its lower edge, mm: the top of its foot, the drawing's bottom and top, the foot of its head. */
export interface PictureHeights {
  readonly floor: number;
  readonly bottom: number;
  readonly top: number;
  readonly ceiling: number;
}

interface PictureContent {
  /** What is drawn, mm of the part, and at what scale. */
  readonly bounds: Box;
  readonly factor: number;
  /** Left free below, above and to the right of that, mm of the picture. */
  readonly below: number;
  readonly above: number;
  readonly right?: number;
  readonly title?: string;
  /** Lines of text over the drawing, and under it. */
  readonly head: readonly string[];
  readonly foot?: readonly string[];
  readonly draw: (view: PictureView, heights: PictureHeights) => readonly Item[];
}

/** A drawing of a part, centered, with its title and text above and below; the title is the part's name if none is given. */
export function framePicture(part: Part, content: PictureContent): Drawing {
  const { bounds, factor, below, above, right = 0, title = part.name, head, foot = [], draw } = content;
  const floor = PICTURE_MARGIN_MM + foot.length * LINE_MM;
  const bottom = floor + below;
  const top = bottom + (bounds.top - bounds.bottom) * factor;
  const ceiling = top + above;
  const headTop = ceiling + head.length * LINE_MM;
  const view = pictureView(part, factor, {
    x: (PICTURE_WIDTH_MM - right - (bounds.left + bounds.right) * factor) / 2,
    y: bottom - bounds.bottom * factor,
  });
  const line = (text: string, y: number): Item => words(text, { x: PICTURE_MARGIN_MM, y }, TEXT_SIZE_MM);
  return {
    width: PICTURE_WIDTH_MM,
    height: headTop + TITLE_SIZE_MM + PICTURE_MARGIN_MM,
    items: [
      words(title, { x: PICTURE_MARGIN_MM, y: headTop + TITLE_SIZE_MM * 0.3 }, titleSize(title)),
      ...head.map((text, i) => line(text, headTop - LINE_MM * (0.7 + i))),
      ...draw(view, { floor, bottom, top, ceiling }),
      ...foot.map((text, i) => line(text, PICTURE_MARGIN_MM + (foot.length - 1 - i) * LINE_MM)),
    ],
  };
}

const titleSize = (title: string): number =>
  Math.min(TITLE_SIZE_MM, INNER_MM / (textWidth(title, 1) * WIDEST_FONT_FACTOR));

/** From margin to margin: where labels may stand, mm. */
export const labelArea = (bottom: number, top: number): Box => ({
  left: PICTURE_MARGIN_MM,
  right: PICTURE_WIDTH_MM - PICTURE_MARGIN_MM,
  bottom,
  top,
});

/** Centered between a baseline and the top of capitals: the baseline of a label at some height, mm. */
export const labelBaseline = (y: number): number => y - (PICTURE_LABEL_MM * CAP_HEIGHT) / 2;
