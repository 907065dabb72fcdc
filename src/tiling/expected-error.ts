import { transformPoint } from '../curves/geometry/affine.ts';
import type { Box } from '../curves/geometry/bounds.ts';
import { distance, type Point } from '../curves/geometry/point.ts';
import type { Layout } from './layout.ts';
import { NOMINAL_LINE_MM } from './paper/printer-scale.ts';

/** The error of one taped seam, mm: about a pencil line's width. Common practice; no published source. */
export const SEAM_ERROR_MM = 0.3;

/** How closely a line is read on a steel rule, mm: half of 1/64 in. The check of a bar lets this much pass. */
export const READING_ERROR_MM = 0.2;

/** The bar to measure on every sheet, mm. */
export const SCALE_BAR_MM = 100;

/** A share; our judgment: half the least of the 0.2 to 0.4% that the paper trade gives. Dry to damp may do worse. */
export const DAMP_STRAIN = 0.001;

/**
 * Of a distance, mm, though all sheets passed their checks: the scale's unseen error and damp count in full; n seams
 * err both ways, √n times one. A model of ours; no published source.
 */
export function expectedError(layout: Layout, from: Point, to: Point): number {
  const scale = READING_ERROR_MM / (layout.printer ? NOMINAL_LINE_MM : SCALE_BAR_MM);
  return (
    distance(from, to) * (scale + DAMP_STRAIN) + SEAM_ERROR_MM * Math.sqrt(seamCountBetween(layout, from, to))
  );
}

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
