import { squareAround } from '../../curves/geometry/bounds.ts';
import { type Chord, segmentIntersectsBox } from '../../curves/geometry/flatten.ts';
import { distance, lerp, type Point } from '../../curves/geometry/point.ts';
import { type Grid, type GridCell, sheetName, trimmedCell } from './grid.ts';

/** The middle of the overlap of two printed neighbors: where the upper sheet is trimmed. */
export interface Seam {
  /** The sheet beneath once taped, then the one on top. */
  readonly sheets: readonly [string, string];
  readonly cells: readonly [GridCell, GridCell];
  readonly from: Point;
  readonly to: Point;
}

/** From a register mark's center to the ends of its arms, mm: two marks 5 mm off true still touch. */
export const REGISTER_REACH_MM = 5;

/** White kept between a register mark and the line to cut, mm. */
const REGISTER_GAP_MM = 1.5;

const SHIFT_STEP_MM = 2;

/** Every seam between printed sheets: the left or upper sheet is beneath. */
export function findSeams(grid: Grid, printed: readonly GridCell[]): Seam[] {
  const names = new Set(printed.map(sheetName));
  return printed.flatMap((place) => {
    const { row, column } = place;
    const { left, right, top, bottom } = trimmedCell(grid, place);
    const seam = (beneath: GridCell, from: Point, to: Point): Seam[] =>
      names.has(sheetName(beneath))
        ? [{ sheets: [sheetName(beneath), sheetName(place)], cells: [beneath, place], from, to }]
        : [];
    return [
      ...seam({ row, column: column - 1 }, { x: left, y: top }, { x: left, y: bottom }),
      ...seam({ row: row - 1, column }, { x: left, y: top }, { x: right, y: top }),
    ];
  });
}

/**
 * As far apart as the seam allows, clear of the lines: the farther apart, the less a sheet can turn on its neighbor.
 * Each stays in its own half. Left out where a line beside the seam joins the sheets.
 */
export const registerMarkCentres = (seam: Chord, lines: readonly Chord[]): Point[] =>
  ([-1, 1] as const).flatMap((half) => outermostClear(seam, half, lines) ?? []);

function outermostClear(seam: Chord, half: -1 | 1, lines: readonly Chord[]): Point | undefined {
  const length = distance(seam.from, seam.to);
  const steps = Math.floor((length / 4 - 2 * REGISTER_REACH_MM) / SHIFT_STEP_MM);
  for (let step = steps; step >= -steps; step--) {
    const out = length / 4 + step * SHIFT_STEP_MM;
    const at = lerp(seam.from, seam.to, 1 / 2 + (half * out) / length);
    const box = squareAround(at, REGISTER_REACH_MM + REGISTER_GAP_MM);
    if (!lines.some((line) => segmentIntersectsBox(line, box))) return at;
  }
  return undefined;
}
