import { transformPoint } from '../../src/curves/geometry/affine.ts';
import { inflate } from '../../src/curves/geometry/bounds.ts';
import type { Point } from '../../src/curves/geometry/point.ts';
import type { Sheet } from '../../src/tiling/layout.ts';

/** Whether a place of the part lies in the sheet's cell or window, or `by` mm beside it. */
export const holds = (sheet: Sheet, box: 'cell' | 'window', at: Point, by = 1e-9): boolean => {
  const { x, y } = transformPoint(sheet.toSheet, at);
  const { left, right, bottom, top } = inflate(sheet[box], by);
  return x >= left && x <= right && y >= bottom && y <= top;
};
