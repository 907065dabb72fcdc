import type { Affine } from '../../curves/geometry/affine.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import type { Sheet } from '../layout.ts';
import type { PrinterStretch } from './printer-scale.ts';

/** PDF's unit is 1/72 in (ISO 32000-1, 8.3.2.3). */
export const POINTS_PER_MM = 72 / MM_PER_INCH;

/** Points on the page for 1 mm on paper. A printer's scale is corrected only here: all else is in true mm. */
export const pointsPerMm = ({ x, y }: PrinterStretch): PrinterStretch => ({
  x: POINTS_PER_MM / x,
  y: POINTS_PER_MM / y,
});

/** Part mm → points on the sheet's page, from its lower left corner, y up. */
export function pageMatrix({ toSheet: [a, b, c, d, e, f], stretch }: Sheet): Affine {
  const { x, y } = pointsPerMm(stretch);
  return [a * x, b * y, c * x, d * y, e * x, f * y];
}
