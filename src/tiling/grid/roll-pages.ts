import { rotate } from '../../curves/geometry/affine.ts';
import type { Box } from '../../curves/geometry/bounds.ts';
import type { Chord } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { windowOf } from '../paper/page-frame.ts';
import { type Grid, LINE_PAD_MM, MIN_WINDOW_MM, type SheetFrame } from './grid.ts';
import { centredGrid } from './grid-offsets.ts';
import { printedCells, turnChords } from './row-spans.ts';
import { candidateTurns, hasBareSeam, type SearchSubject } from './search-grid.ts';

/**
 * On `auto` the part lies as it is, unless a turn by whole degrees saves a page; then the fewest pages, of those the
 * least paper. Finer turns save 0.3% of paper at most, and no page (40 parts at every 0.05 degrees, 6 turned).
 */
export function planRoll(
  { chords, coarse, extraPoints }: SearchSubject,
  frames: readonly SheetFrame[],
  turn: 'auto' | number,
  lowerBound: number,
): RollPlan {
  const unturned = planRollAtTurn(chords, extraPoints, frames, turn === 'auto' ? 0 : turn);
  if (turn !== 'auto' || unturned.sheets <= lowerBound) return unturned;
  const coarsePlans = candidateTurns(coarse.length, 1)
    .map((turnDeg) => planRollAtTurn(coarse, extraPoints, frames, turnDeg))
    .filter(({ sheets }) => sheets < unturned.sheets)
    .sort(comparePaperUse);
  for (const { turnDeg, sheets } of coarsePlans) {
    const plan = planRollAtTurn(chords, extraPoints, frames, turnDeg);
    if (plan.sheets <= sheets && !hasBareSeam(turnChords(chords, rotate(turnDeg), extraPoints), plan.grid))
      return plan;
  }
  return unturned;
}

interface RollPlan {
  readonly turnDeg: number;
  readonly grid: Grid;
  readonly sheets: number;
  /** Of a page, mm². */
  readonly area: number;
}

const comparePaperUse = (a: RollPlan, b: RollPlan): number => a.sheets - b.sheets || a.area - b.area;

function planRollAtTurn(
  chords: readonly Chord[],
  also: readonly Point[],
  frames: readonly SheetFrame[],
  turnDeg: number,
): RollPlan {
  const laid = turnChords(chords, rotate(turnDeg), also);
  const plans = frames.map((frame) => {
    const grid = cutPages(centredGrid(laid, frame), laid.bounds);
    const area = grid.size.width * grid.size.height;
    return { turnDeg, grid, sheets: printedCells(laid, grid).length, area };
  });
  return plans.reduce((a, b) => (comparePaperUse(b, a) < 0 ? b : a));
}

/** Cut to the equal length that the pattern needs, no shorter than the scale bars; the pattern in the middle. */
function cutPages(grid: Grid, { left, right, bottom, top }: Box): Grid {
  const upright = grid.orientation === 'upright';
  const side = upright ? 'height' : 'width';
  const [count, pattern] = upright ? [grid.rows, top - bottom] : [grid.columns, right - left];
  const window = windowOf(grid)[side];
  const share = (pattern + 2 * LINE_PAD_MM + (count - 1) * grid.overlap) / count;
  const spare = window - Math.min(window, Math.max(MIN_WINDOW_MM, share));
  const size = { ...grid.size, [side]: grid.size[side] - spare };
  const extent = windowsExtent(windowOf({ ...grid, size })[side], count, grid.overlap);
  return upright
    ? { ...grid, size, top: (top + bottom) / 2 + extent / 2 }
    : { ...grid, size, left: (left + right) / 2 - extent / 2 };
}

const windowsExtent = (window: number, count: number, overlap: number): number =>
  count * (window - overlap) + overlap;
