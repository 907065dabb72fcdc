import type { Point } from '../../curves/geometry/point.ts';
import { columnSpacing, type Grid, rowSpacing } from './grid.ts';
import type { LengthAlongSeam } from './lines-along-seams.ts';
import { countSeamCrossings, type RowSpans } from './row-spans.ts';

/** A seam this far from an apex, point, join or end leaves room for a hand's work on either side, mm. */
const FAR_FROM_SEAM_MM = 30;
const CLEARANCE_STEP_MM = 5;

export interface CostContext {
  readonly landmarks: readonly Point[];
  /** mm of line along an upright seam at a place across, and along a level one at a place up. */
  readonly lengthAlongUpright: LengthAlongSeam;
  readonly lengthAlongLevel: LengthAlongSeam;
}

/** The worst first: sheets; line along seams, mm; seams crossed; nearness to landmarks; lying paper; shift, mm. */
export function gridCost(
  context: CostContext,
  grid: Grid,
  rows: readonly RowSpans[],
  sheets: number,
  shiftFromCentre: number,
): readonly number[] {
  const up = { first: grid.left + grid.overlap / 2, pitch: columnSpacing(grid), count: grid.columns };
  const across = { first: -(grid.top - grid.overlap / 2), pitch: rowSpacing(grid), count: grid.rows };
  const level: LengthAlongSeam = (down) => context.lengthAlongLevel(-down);
  const along = sumOverSeams(up, context.lengthAlongUpright) + sumOverSeams(across, level);
  let clearance = FAR_FROM_SEAM_MM;
  for (const { x, y } of context.landmarks)
    clearance = Math.min(clearance, nearestSeam(up, x), nearestSeam(across, -y));
  return [
    sheets,
    Math.round(along),
    countSeamCrossings(rows, grid),
    -Math.floor(clearance / CLEARANCE_STEP_MM),
    grid.orientation === 'upright' ? 0 : 1,
    Math.round(shiftFromCentre),
  ];
}

interface SeamLines {
  readonly first: number;
  readonly pitch: number;
  readonly count: number;
}

function sumOverSeams({ first, pitch, count }: SeamLines, of: LengthAlongSeam): number {
  let total = 0;
  for (let k = 1; k < count; k++) total += of(first + k * pitch);
  return total;
}

function nearestSeam({ first, pitch, count }: SeamLines, at: number): number {
  if (count === 1) return FAR_FROM_SEAM_MM;
  const k = Math.min(count - 1, Math.max(1, Math.round((at - first) / pitch)));
  return Math.abs(at - first - k * pitch);
}
