import { landscapeMargins, type Margin, type Margins, marginSides } from './margins.ts';
import type { Orientation, Paper } from './paper-sizes.ts';
import { type PrinterScale, type PrinterStretch, pageStretch, TRUE_PRINTER } from './printer-scale.ts';

/** A page once it is printed, in true mm. */
export interface PageFrame {
  readonly size: PageSize;
  readonly margin: Margins;
  readonly stretch: PrinterStretch;
}

interface PageSize {
  readonly width: number;
  readonly height: number;
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
  return {
    size: { width: width * stretch.x, height: height * stretch.y },
    margin: {
      top: top * stretch.y,
      bottom: bottom * stretch.y,
      left: left * stretch.x,
      right: right * stretch.x,
    },
    stretch,
  };
}

/** What a page shows: all inside its margins. */
export const windowOf = ({ size, margin }: Pick<PageFrame, 'size' | 'margin'>): PageSize => ({
  width: size.width - margin.left - margin.right,
  height: size.height - margin.top - margin.bottom,
});
