import type { Point } from '../../curves/geometry/point.ts';
import { type Grid, pitchAcross, pitchDown } from './grid.ts';
import type { AlongSeam } from './lines-along-seams.ts';
import { type RowSpread, seamsCrossed } from './row-spans.ts';

/** A seam so far from an apex, pin, join or end, mm, is far enough: a hand's work on either side of it. */
const FAR_MM = 30;
/** Steps in which that distance counts, mm. */
const NEARER_MM = 5;

/** A part at one turn, by what its seams are judged. */
export interface Judged {
  readonly landmarks: readonly Point[];
  /** mm of line along an upright seam at a place across, and along a level one at a place up. */
  readonly alongUp: AlongSeam;
  readonly alongAcross: AlongSeam;
}

/**
 * What is wrong with a grid over a part, the gravest first: its sheets; line along seams, mm; seams that lines
 * cross; how near seams come to landmarks; paper on its side; how far it is shifted from the plain place, mm.
 */
export function judge(
  view: Judged,
  grid: Grid,
  rows: readonly RowSpread[],
  sheets: number,
  shift: number,
): readonly number[] {
  const up = { first: grid.left + grid.overlap / 2, pitch: pitchAcross(grid), count: grid.columns };
  const across = { first: -(grid.top - grid.overlap / 2), pitch: pitchDown(grid), count: grid.rows };
  const along = sum(up, (x) => view.alongUp(x)) + sum(across, (down) => view.alongAcross(-down));
  const clear = Math.min(
    FAR_MM,
    ...view.landmarks.flatMap(({ x, y }) => [nearest(up, x), nearest(across, -y)]),
  );
  return [
    sheets,
    Math.round(along),
    seamsCrossed(rows, grid),
    -Math.floor(clear / NEARER_MM),
    grid.orientation === 'upright' ? 0 : 1,
    Math.round(shift),
  ];
}

/** The seam lines of one direction: inside a row of windows, not at its ends. */
interface SeamLines {
  readonly first: number;
  readonly pitch: number;
  readonly count: number;
}

function sum({ first, pitch, count }: SeamLines, of: (at: number) => number): number {
  let total = 0;
  for (let k = 1; k < count; k++) total += of(first + k * pitch);
  return total;
}

function nearest({ first, pitch, count }: SeamLines, at: number): number {
  if (count === 1) return FAR_MM;
  const k = Math.min(count - 1, Math.max(1, Math.round((at - first) / pitch)));
  return Math.abs(at - first - k * pitch);
}
