import { cross, type Point, subtract } from '../../curves/geometry/point.ts';
import { columnSpacing, minWindows, rowSpacing, type SheetFrame } from './grid.ts';

/** Over a right angle, 0.1° apart: 5 mm in 3 m are lost between two of them. */
const DIRECTIONS = 900;

/**
 * A number of sheets that no layout of a line on this paper goes below, at any turn and shift.
 * Proof. Turned by θ, the line is e(θ) wide and e(θ + 90°) high, so its windows are in at least a columns and b rows,
 * the fewest that reach so far. The line is in one piece, so its sheets join by seams (a sheet near a corner that it
 * passes is printed too), and a tree that reaches a columns and b rows takes a + b − 1 sheets. Between two directions
 * δ apart e changes by at most the diameter times δ/2, which is taken off. With both ways of the paper a right angle
 * makes a full turn.
 */
export function minSheets(line: readonly Point[], frames: readonly SheetFrame[]): number {
  const hull = convexHull(line);
  const step = Math.PI / 2 / DIRECTIONS;
  const [wide, high] = [extent(hull, 1, 0), extent(hull, 0, 1)];
  const slack = (Math.hypot(wide, high) * step) / 2;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < DIRECTIONS; i++) {
    const [cos, sin] = [Math.cos(i * step), Math.sin(i * step)];
    const [across, down] = [extent(hull, cos, sin) - slack, extent(hull, -sin, cos) - slack];
    for (const frame of frames) least = Math.min(least, minSheetsForExtent(across, down, frame));
  }
  return least;
}

/** The fewest sheets in one piece that reach so far both ways. */
export function minSheetsForExtent(across: number, down: number, frame: SheetFrame): number {
  const columns = minWindows(across, columnSpacing(frame), frame.overlap);
  return columns + minWindows(down, rowSpacing(frame), frame.overlap) - 1;
}

function extent(points: readonly Point[], x: number, y: number): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const at of points) {
    const along = at.x * x + at.y * y;
    if (along < low) low = along;
    if (along > high) high = along;
  }
  return high - low;
}

/** Andrew's monotone chain. */
function convexHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const half = (run: readonly Point[]): Point[] => {
    const kept: Point[] = [];
    for (const at of run) {
      while (turnsRight(kept, at)) kept.pop();
      kept.push(at);
    }
    return kept;
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

function turnsRight(path: readonly Point[], next: Point): boolean {
  const [a, b] = path.slice(-2);
  return a !== undefined && b !== undefined && cross(subtract(b, a), subtract(next, a)) <= 0;
}
