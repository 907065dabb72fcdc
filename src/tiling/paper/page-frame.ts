import { landscapeMargins, type Margin, type Margins, marginSides } from './margins.ts';
import type { Orientation, Paper } from './paper-sizes.ts';
import { type PrinterScale, type PrinterStretch, pageStretch, TRUE_PRINTER } from './printer-scale.ts';

/** A page once it is printed, in true mm. */
export interface PageFrame {
  readonly size: Pick<Paper, 'width' | 'height'>;
  readonly margin: Margins;
  readonly stretch: PrinterStretch;
}

export interface PageOptions {
  readonly paper: Paper;
  /** The edge of the paper left white, mm, ≥ 0. */
  readonly margin: Margin;
  /** Corrected on every sheet; absent for a printer that prints true. */
  readonly printer?: PrinterScale;
}

/** Upright or lying. A printer that prints long gets long margins, so that on the page they are as asked. */
export function pageFrame({ paper, margin, printer }: PageOptions, orientation: Orientation): PageFrame {
  const upright = orientation === 'upright';
  const stretch = pageStretch(printer ?? TRUE_PRINTER, orientation);
  const { top, right, bottom, left } = upright ? marginSides(margin) : landscapeMargins(marginSides(margin));
  const [width, height] = upright ? [paper.width, paper.height] : [paper.height, paper.width];
  const { x, y } = stretch;
  const margins = { top: top * y, bottom: bottom * y, left: left * x, right: right * x };
  return { size: { width: width * x, height: height * y }, margin: margins, stretch };
}

export const windowOf = ({ size, margin }: Pick<PageFrame, 'size' | 'margin'>): PageFrame['size'] => ({
  width: size.width - margin.left - margin.right,
  height: size.height - margin.top - margin.bottom,
});
