import { rotate, transformPoint } from '../../curves/geometry/affine.ts';
import type { Chord } from '../../curves/geometry/flatten.ts';
import { itemAt } from '../../units/checked.ts';
import { indexChordsByCell } from './chord-index.ts';
import { columnSpacing, type Grid, rowSpacing, type SheetFrame } from './grid.ts';
import { type CostContext, gridCost } from './grid-cost.ts';
import { candidateOffsets, centredGrid, gridAt } from './grid-offsets.ts';
import { lengthAlongSeams } from './lines-along-seams.ts';
import type { LinesToTile } from './lines-to-tile.ts';
import { minSheetsForExtent } from './min-sheets.ts';
import { countSheets, printedCells, spansByRow, type TurnedChords, turnChords } from './row-spans.ts';
import { findSeams, registerMarkCentres } from './seams.ts';

export interface SearchSubject extends Pick<LinesToTile, 'extraPoints' | 'landmarks'> {
  readonly chords: readonly Chord[];
  /** The same lines within COARSE_CHORD_MM, to look through many turns with. */
  readonly coarse: readonly Chord[];
}

/** A tenth of the clearance around a sheet's share: what is found with it nearly always holds exactly. */
export const COARSE_CHORD_MM = 0.3;

export interface GridPlan {
  readonly turnDeg: number;
  readonly grid: Grid;
  readonly sheets: number;
  readonly cost: readonly number[];
}

/** Steps of the grid's shift against the part, mm: half a register mark does not matter for a seam. */
const FINE_STEP_MM = 4;
/** While many turns are looked through. */
const COARSE_STEP_MM = 8;

/** Turns tried besides the part as it lies, degrees. The paper turned its other way makes up the rest. */
const TURN_STEP_DEG = 1;
const TURN_QUARTER_DEG = 0.25;
const MAX_TURN_DEG = 45;

const TYPICAL_SHIFTS = 64;

/** Sheets of layouts with a bare seam passed over before one is taken: all lines. A try costs 20 µs a sheet. */
const MAX_BARE_SEAM_SHEETS = 5000;

/** So many chords are laid into rows in all before the steps grow: half a second on a slow machine. */
const MAX_CHORD_VISITS = 4e6;

/**
 * The best over both ways of the paper, the turn (unless given) and the shift. Every seam keeps a register mark, clear
 * of the lines; then fewest sheets; the smaller turn; no seam along a line; fewest seams crossed; seams far from
 * landmarks; upright paper; the part in the middle. Ends at `lowerBound`, which no layout goes below.
 */
export function bestPlan(
  subject: SearchSubject,
  frames: readonly SheetFrame[],
  turn: 'auto' | number,
  lowerBound: number,
): GridPlan {
  const budgeted = { ...subject, tries: { left: MAX_BARE_SEAM_SHEETS } };
  const unturned = bestAtTurn(budgeted, 'fine', frames, turn === 'auto' ? 0 : turn);
  if (!unturned) throw new Error('no grid holds the part');
  if (turn !== 'auto') return unturned;
  let best = unturned;
  const { length } = subject.coarse;
  for (const turnDeg of [...candidateTurns(length, TYPICAL_SHIFTS), ...fractionalTurns(length)]) {
    if (best.sheets <= lowerBound) break;
    const rough = bestAtTurn(budgeted, 'coarse', frames, turnDeg, best);
    if (rough) best = bestAtTurn(budgeted, 'fine', frames, turnDeg, best) ?? best;
  }
  return best;
}

export function centredSheetCount({ chords, extraPoints }: SearchSubject, frame: SheetFrame): number {
  const laid = turnChords(chords, rotate(0), extraPoints);
  const grid = centredGrid(laid, frame);
  return countSheets(spansByRow(laid, frame, grid.top, grid.rows), frame, grid.left, grid.columns);
}

/** Tried last: 5 of 250 leaning parts save a sheet by such a turn. None where many chords would take too long. */
function fractionalTurns(chords: number): number[] {
  const count = MAX_TURN_DEG / TURN_QUARTER_DEG;
  if (2 * count * TYPICAL_SHIFTS * chords > MAX_CHORD_VISITS) return [];
  return Array.from({ length: count }, (_, i) => (i + 1) * TURN_QUARTER_DEG)
    .filter((degrees) => degrees % TURN_STEP_DEG !== 0)
    .flatMap((degrees) => [degrees, -degrees]);
}

/** Small turns before great ones, each to be tried with so many shifts; fewer for a part of very many chords. */
export function candidateTurns(chords: number, shifts: number): number[] {
  const most = Math.floor(MAX_CHORD_VISITS / (2 * shifts * chords));
  const step = Math.max(TURN_STEP_DEG, Math.ceil(MAX_TURN_DEG / Math.max(1, most)));
  const turns = Array.from({ length: Math.floor(MAX_TURN_DEG / step) }, (_, i) => (i + 1) * step);
  return turns.flatMap((degrees) => [degrees, -degrees]);
}

type SearchDetail = 'fine' | 'coarse';

/** The best shift at one turn, on paper lying either way; undefined when it does not better `known`. */
function bestAtTurn(
  subject: SearchSubject & { readonly tries: TurnContext['budget'] },
  detail: SearchDetail,
  frames: readonly SheetFrame[],
  turnDeg: number,
  known?: GridPlan,
): GridPlan | undefined {
  const matrix = rotate(turnDeg);
  const laid = turnChords(detail === 'fine' ? subject.chords : subject.coarse, matrix, subject.extraPoints);
  const { left, right, bottom, top } = laid.bounds;
  const most = known ? maxSheetsToImprove(known, turnDeg) : Number.POSITIVE_INFINITY;
  const fits = frames.filter((frame) => minSheetsForExtent(right - left, top - bottom, frame) <= most);
  if (fits.length === 0) return undefined;
  const context: TurnContext = {
    laid,
    detail,
    budget: subject.tries,
    turnDeg,
    landmarks: subject.landmarks.map((at) => transformPoint(matrix, at)),
    lengthAlongUpright: lengthAlongSeams(laid, 'up'),
    lengthAlongLevel: lengthAlongSeams(laid, 'across'),
  };
  const best = fits.reduce<GridPlan | undefined>((plan, frame) => bestShift(context, frame, plan), known);
  return best === known ? undefined : best;
}

const maxSheetsToImprove = (known: GridPlan, turnDeg: number): number =>
  known.turnDeg === turnDeg ? known.sheets : known.sheets - 1;

interface TurnContext extends CostContext {
  readonly laid: TurnedChords;
  readonly detail: SearchDetail;
  /** Sheets of layouts with a bare seam that are still passed over; counted down. */
  readonly budget: { left: number };
  readonly turnDeg: number;
}

function bestShift(context: TurnContext, frame: SheetFrame, known?: GridPlan): GridPlan | undefined {
  const step = context.detail === 'fine' ? FINE_STEP_MM : COARSE_STEP_MM;
  const { left, right, bottom, top } = context.laid.bounds;
  const downStep = Math.max(step, (2 * rowSpacing(frame) * context.laid.chords.length) / MAX_CHORD_VISITS);
  const columns = candidateOffsets(left, right, columnSpacing(frame), frame.overlap, step);
  const fewestColumns = Math.min(...columns.map(({ count }) => count));
  let best = known;
  const fits = (rows: number, cols: number): boolean =>
    !best || rows + cols - 1 <= maxSheetsToImprove(best, context.turnDeg);
  for (const down of candidateOffsets(-top, -bottom, rowSpacing(frame), frame.overlap, downStep)) {
    if (!fits(down.count, fewestColumns)) continue;
    const rows = spansByRow(context.laid, frame, -down.start, down.count);
    for (const across of columns) {
      if (!fits(down.count, across.count)) continue;
      const sheets = countSheets(rows, frame, across.start, across.count);
      if (best && sheets > maxSheetsToImprove(best, context.turnDeg)) continue;
      const grid = gridAt(frame, across, down);
      const cost = gridCost(context, grid, rows, sheets, down.shift + across.shift);
      if (best && !isLexicographicallyLess(cost, best.cost)) continue;
      if (context.detail === 'fine' && context.budget.left > 0 && hasBareSeam(context.laid, grid)) {
        context.budget.left -= sheets;
        continue;
      }
      best = { turnDeg: context.turnDeg, grid, sheets, cost };
    }
  }
  return best;
}

/** Whether some seam has no register mark, because both would lie on lines. */
export function hasBareSeam(laid: TurnedChords, grid: Grid): boolean {
  const near = indexChordsByCell(laid, grid);
  return findSeams(grid, printedCells(laid, grid)).some(
    (seam) => registerMarkCentres(seam, near(seam.cells[1])).length === 0,
  );
}

function isLexicographicallyLess(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((value, k) => value !== b[k]);
  return i >= 0 && itemAt(a, i) < itemAt(b, i);
}
