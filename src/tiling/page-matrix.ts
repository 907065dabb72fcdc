import { MM_PER_INCH } from '../units/unit.ts';
import { type Affine, enlarged } from './affine.ts';
import type { Sheet } from './layout.ts';

/** PDF's unit is 1/72 in (ISO 32000-1, 8.3.2.3). */
export const POINTS_PER_MM = 72 / MM_PER_INCH;

/** Part mm → points on the sheet's page, from its lower left corner, y up. */
export const pageMatrix = (sheet: Sheet): Affine => enlarged(sheet.toSheet, POINTS_PER_MM);
