import { apply, turning } from '../../curves/geometry/affine.ts';
import type { Chord } from '../../curves/geometry/flatten.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { nearChords } from './chord-index.ts';
import { type Frame, type Grid, pitchAcross, pitchDown } from './grid.ts';
import { type Judged, judge } from './grid-cost.ts';
import { gridOf, plainGrid, stands } from './grid-offsets.ts';
import { alongSeams } from './lines-along-seams.ts';
import { sheetsOver } from './min-sheets.ts';
import { type Laid, laidOut, printedPlaces, sheetCount, spreadOverRows } from './row-spans.ts';
import { registerCentres, seamsOf } from './seams.ts';

/** What is laid out: the lines to cut, and the places that seams should keep away from. */
export interface Subject {
  readonly chords: readonly Chord[];
  /** The same lines within COARSE_CHORD_MM, to look through many turns with. */
  readonly coarse: readonly Chord[];
  /** Places that must be seen as well: they widen the bounds, and call for no sheet of their own. */
  readonly also: readonly Point[];
  readonly landmarks: readonly Point[];
}

/** A tenth of the clearance round a sheet's share: what is found by it nearly always holds exactly. */
export const COARSE_CHORD_MM = 0.3;

export interface Plan {
  readonly turnDeg: number;
  readonly grid: Grid;
  readonly sheets: number;
  /** What is wrong with it, the gravest first; the lesser is the better. */
  readonly faults: readonly number[];
}

/** How finely the grid is shifted against the part, mm: half a register mark is no matter for a seam. */
const STEP_MM = 4;
/** The same while many turns are looked through. */
const COARSE_STEP_MM = 8;

/** Turns tried beside the part as it lies, degrees. The paper turned its other way makes up the rest. */
const TURN_STEP_DEG = 1;
const TURN_QUARTER_DEG = 0.25;
const MOST_TURN_DEG = 45;

/** About so many ways down are tried at each turn. */
const USUAL_SHIFTS = 64;

/**
 * Sheets of the layouts that leave a seam bare before any is taken as it is: a part that fails more often
 * is all lines. A try costs some 20 µs a sheet.
 */
const MOST_TRIED_SHEETS = 5000;

/** So many chords are laid into rows in all before the steps grow: half a second on a slow machine. */
const MOST_CHORDS = 4e6;

/**
 * The best way to lay a part over sheets: over both ways the paper may lie, the turn (unless one is
 * given) and the shift of the grid. Every seam keeps a register mark, clear of the lines. Then, in order
 * of weight: fewest sheets; the smaller turn; no seam along a
 * line; fewest seams crossed by the lines; seams far from landmarks; upright paper; the part in the
 * middle of its sheets. So a part is turned only where that saves a sheet. `least` is a number of sheets
 * that cannot be bettered: once it is reached no further turn is tried.
 */
export function bestPlan(
  subject: Subject,
  frames: readonly Frame[],
  turn: 'auto' | number,
  least: number,
): Plan {
  const asked = { ...subject, tries: { left: MOST_TRIED_SHEETS } };
  const straight = bestAt(asked, 'fine', frames, turn === 'auto' ? 0 : turn);
  if (!straight) throw new Error('no grid holds the part');
  if (turn !== 'auto') return straight;
  let best = straight;
  const { length } = subject.coarse;
  for (const turnDeg of [...turns(length, USUAL_SHIFTS), ...turnsBetween(length)]) {
    if (best.sheets <= least) break;
    const rough = bestAt(asked, 'coarse', frames, turnDeg, best);
    if (rough) best = bestAt(asked, 'fine', frames, turnDeg, best) ?? best;
  }
  return best;
}

/** How many sheets the part takes as it lies, in the middle of its grid. */
export function plainSheets({ chords, also }: Subject, frame: Frame): number {
  const laid = laidOut(chords, turning(0), also);
  const grid = plainGrid(laid, frame);
  return sheetCount(spreadOverRows(laid, frame, grid.top, grid.rows), frame, grid.left, grid.columns);
}

/**
 * The quarters between whole degrees, tried after them: of 250 leaning parts on sheets, 5 take one sheet less by such a
 * turn. None where there are so many chords that it would take too long.
 */
function turnsBetween(chords: number): number[] {
  const count = MOST_TURN_DEG / TURN_QUARTER_DEG;
  if (2 * count * USUAL_SHIFTS * chords > MOST_CHORDS) return [];
  return Array.from({ length: count }, (_, i) => (i + 1) * TURN_QUARTER_DEG)
    .filter((degrees) => degrees % TURN_STEP_DEG !== 0)
    .flatMap((degrees) => [degrees, -degrees]);
}

/** Small turns before great ones, each looked at with so many shifts; fewer of them for a part of very many chords. */
export function turns(chords: number, shifts: number): number[] {
  const most = Math.floor(MOST_CHORDS / (2 * shifts * chords));
  const step = Math.max(TURN_STEP_DEG, Math.ceil(MOST_TURN_DEG / Math.max(1, most)));
  return Array.from({ length: Math.floor(MOST_TURN_DEG / step) }, (_, i) => (i + 1) * step).flatMap(
    (degrees) => [degrees, -degrees],
  );
}

/** Sheets of layouts with a bare seam that are still passed over; counted down. */
interface Tries {
  left: number;
}

/** Over many turns the part is looked at coarsely; what is found so is worked out finely. */
type Look = 'fine' | 'coarse';

/** The best shift at one turn, on paper lying either way; undefined when it does not better `known`. */
function bestAt(
  subject: Subject & { readonly tries: Tries },
  look: Look,
  frames: readonly Frame[],
  turnDeg: number,
  known?: Plan,
): Plan | undefined {
  const matrix = turning(turnDeg);
  const laid = laidOut(look === 'fine' ? subject.chords : subject.coarse, matrix, subject.also);
  const { left, right, bottom, top } = laid.bounds;
  const fits = frames.filter(
    (frame) => !known || sheetsOver(right - left, top - bottom, frame) <= mostSheets(known, turnDeg),
  );
  if (fits.length === 0) return undefined;
  const view: View = {
    laid,
    look,
    tries: subject.tries,
    turnDeg,
    landmarks: subject.landmarks.map((at) => apply(matrix, at)),
    alongUp: alongSeams(laid, 'up'),
    alongAcross: alongSeams(laid, 'across'),
  };
  const best = fits.reduce<Plan | undefined>((plan, frame) => bestShift(view, frame, plan), known);
  return best === known ? undefined : best;
}

/** How many sheets a plan at some turn may take and still be better than the known one. */
const mostSheets = (known: Plan, turnDeg: number): number =>
  known.turnDeg === turnDeg ? known.sheets : known.sheets - 1;

/** A part at one turn. */
interface View extends Judged {
  readonly laid: Laid;
  readonly look: Look;
  readonly tries: Tries;
  readonly turnDeg: number;
}

function bestShift(view: View, frame: Frame, known: Plan | undefined): Plan | undefined {
  const step = view.look === 'fine' ? STEP_MM : COARSE_STEP_MM;
  const { left, right, bottom, top } = view.laid.bounds;
  const downStep = Math.max(step, (2 * pitchDown(frame) * view.laid.ends.length) / 4 / MOST_CHORDS);
  const columns = stands(left, right, pitchAcross(frame), frame.overlap, step);
  const fewestColumns = Math.min(...columns.map(({ count }) => count));
  let best = known;
  const fits = (rows: number, cols: number): boolean =>
    !best || rows + cols - 1 <= mostSheets(best, view.turnDeg);
  for (const down of stands(-top, -bottom, pitchDown(frame), frame.overlap, downStep)) {
    if (!fits(down.count, fewestColumns)) continue;
    const rows = spreadOverRows(view.laid, frame, -down.start, down.count);
    for (const across of columns) {
      if (!fits(down.count, across.count)) continue;
      const sheets = sheetCount(rows, frame, across.start, across.count);
      if (best && sheets > mostSheets(best, view.turnDeg)) continue;
      const grid = gridOf(frame, across, down);
      const faults = judge(view, grid, rows, sheets, down.shift + across.shift);
      if (best && !isLess(faults, best.faults)) continue;
      if (view.look === 'fine' && view.tries.left > 0 && hasBareSeam(view.laid, grid)) {
        view.tries.left -= sheets;
        continue;
      }
      best = { turnDeg: view.turnDeg, grid, sheets, faults };
    }
  }
  return best;
}

/** Whether both register marks of some seam would lie on lines, so that it has none. */
export function hasBareSeam(laid: Laid, grid: Grid): boolean {
  const near = nearChords(laid, grid);
  return seamsOf(grid, printedPlaces(laid, grid)).some(
    (seam) => registerCentres(seam, near(seam.places[1])).length === 0,
  );
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((value, k) => value !== b[k]);
  return i >= 0 && a[i]! < b[i]!;
}
