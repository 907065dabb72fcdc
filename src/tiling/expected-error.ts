import { transformPoint } from '../curves/geometry/affine.ts';
import type { Box } from '../curves/geometry/bounds.ts';
import { distance, type Point } from '../curves/geometry/point.ts';
import type { Layout } from './layout.ts';
import { NOMINAL_LINE_MM } from './paper/printer-scale.ts';

/**
 * What one taped seam is off, mm: about the width of a pencil line, with register marks drawn half as
 * wide. Common practice; no published source.
 */
export const SEAM_ERROR_MM = 0.3;

/** How closely a line is read on a steel rule, mm: half of 1/64 in. So much the check of a bar lets pass. */
export const READING_ERROR_MM = 0.2;

/** The bar that is checked on every sheet, mm. */
export const SCALE_BAR_MM = 100;

/**
 * How far paper stretches or shrinks with damp between printing and measuring, a share. Our judgement:
 * half of the least of the 0.2 to 0.4 % that the paper trade gives across the sheet. The range of damp
 * behind those figures is not told, so a pattern carried from a dry room to a damp one may do worse.
 */
export const DAMP_STRAIN = 0.001;

/**
 * How far a measure on the taped-up pattern may be off although every sheet passed its checks, mm: about the most,
 * neither a bound nor a standard deviation. What stretches all sheets alike adds up with the length and is taken in
 * full: the printer's scale, as far as the bars or the printer sheet cannot tell it, and damp paper. Seams err this
 * way and that, so n of them give √n times one. A model of ours; no published source.
 */
export function expectedError(layout: Layout, from: Point, to: Point): number {
  const scale = READING_ERROR_MM / (layout.printer ? NOMINAL_LINE_MM : SCALE_BAR_MM);
  return (
    distance(from, to) * (scale + DAMP_STRAIN) + SEAM_ERROR_MM * Math.sqrt(seamCountBetween(layout, from, to))
  );
}

/** How many seams lie between two places of the part, counted along rows and columns. */
function seamCountBetween(layout: Layout, from: Point, to: Point): number {
  const [a, b] = [cellOf(layout, from), cellOf(layout, to)];
  return Math.abs(a.row - b.row) + Math.abs(a.column - b.column);
}

function cellOf({ sheets: [first], overlap }: Layout, at: Point): { row: number; column: number } {
  const { x, y } = transformPoint(first.toSheet, at);
  const { left, right, bottom, top }: Box = first.window;
  return {
    column: first.column + Math.floor((x - left - overlap / 2) / (right - left - overlap)),
    row: first.row + Math.floor((top - overlap / 2 - y) / (top - bottom - overlap)),
  };
}
