import { pathBox } from '../curves/box.ts';
import type { Box } from '../curves/curve.ts';
import type { Segment } from '../curves/piece.ts';
import type { Point } from '../curves/point.ts';
import { mapSegment } from '../curves/segment.ts';
import { chordOf, finishedLine } from '../part/finished-line.ts';
import type { Part } from '../part/part.ts';
import { Fault } from '../units/fault.ts';
import { type Affine, apply, inverse, shifted, turning } from './affine.ts';
import { checkCrosses, checksOf } from './checks.ts';
import { type Chord, chordsOf, grown, passes } from './chords.ts';
import { patternCode } from './code.ts';
import {
  cellAt,
  type Grid,
  gridOver,
  MAX_SHEETS,
  type Place,
  places,
  sheetName,
  tooManySheets,
  windowAt,
} from './grid.ts';
import type { Layout, Neighbours, Orientation, RegisterMark, Sheet } from './layout.ts';
import { sidesOf } from './margins.ts';
import type { PageOptions } from './page-frame.ts';
import { cutRoll } from './roll.ts';
import { around, REGISTER_REACH_MM, registerCentres, type Seam, seamBox, seamsOf } from './seams.ts';

/** 1/2 in: nearly every desktop printer reaches that close to the edge; 6 mm is the risk of some. */
export const DEFAULT_MARGIN_MM = 12.7;

/** Room for a register mark and, beyond the trim line, for the neighbour's name in type of 3 mm. */
export const DEFAULT_OVERLAP_MM = 15;

/** A register mark from arm to arm. With less overlap each sheet would show only a part of it. */
export const MIN_OVERLAP_MM = 2 * REGISTER_REACH_MM;

/**
 * How far beyond its own share a sheet still counts as holding the line, mm. Where a line passes the
 * corner of four sheets this keeps all of them, so the printed ones always meet along a seam.
 */
const CORNER_CLEARANCE_MM = 3;

export interface LayOutOptions extends PageOptions {
  /** How far neighbouring sheets show the same, mm, ≥ MIN_OVERLAP_MM. */
  readonly overlap: number;
  /** How far to turn the part on the paper, counter-clockwise, degrees; 'auto' leaves it as it lies. */
  readonly turn: 'auto' | number;
}

/**
 * The part laid over as few sheets as upright or lying paper allows; on a tie the fewer seams cross
 * the line, then the paper stands upright. Sheets that no line touches are left out.
 *
 * @throws Fault `layout.margin`, `layout.overlap`, `layout.turn`, `layout.no-room`,
 *   `layout.too-many-sheets`
 */
export function layOut(part: Part, options: LayOutOptions): Layout {
  checkOptions(options);
  const turnDeg = options.turn === 'auto' ? 0 : options.turn;
  const turn = turning(turnDeg);
  const laid = layLines(part, turn);
  const { grid, printed, seams } = fewestSheets(laid, options);
  const marks = seams.flatMap((seam) => registerMarks(seam, laid.chords, inverse(turn)));
  const markBoxes = marks.map(({ at }) => around(apply(turn, at), REGISTER_REACH_MM + 1));
  const crosses = checkCrosses(grid, printed, laid.chords, markBoxes).map((cross) => ({
    ...cross,
    at: apply(inverse(turn), cross.at),
  }));
  const sheets = printed.map((place) => sheetAt(place, grid, turn, seams, marks));
  const { orientation, rows, columns, overlap } = grid;
  return {
    paper: options.paper,
    orientation,
    turnDeg,
    margin: sidesOf(options.margin),
    ...(options.printer && { printer: options.printer }),
    overlap,
    rows,
    columns,
    sheets: sheets as [Sheet, ...Sheet[]],
    crosses,
    checks: checksOf(part, crosses),
    code: patternCode([part.name, linesToCut(part), sheets]),
  };
}

function checkOptions({ margin, overlap, turn }: LayOutOptions): void {
  const wrong = Object.values(sidesOf(margin)).find((side) => !(side >= 0 && Number.isFinite(side)));
  if (wrong !== undefined)
    throw new Fault('layout.margin', (length) => `a margin is ${length(wrong)}. Use ${length(0)} or more.`);
  if (!(overlap >= MIN_OVERLAP_MM && Number.isFinite(overlap)))
    throw new Fault(
      'layout.overlap',
      (length) =>
        `an overlap of ${length(overlap)} holds no register mark. Use ${length(MIN_OVERLAP_MM)} or more.`,
    );
  if (turn !== 'auto' && !Number.isFinite(turn))
    throw new Fault('layout.turn', `the turn is ${turn}. Use a number of degrees, or auto.`);
}

/** The lines to cut and what else must fit on the sheets, turned as they lie on the paper. */
interface Laid {
  readonly chords: readonly Chord[];
  readonly bounds: Box;
}

function layLines(part: Part, turn: Affine): Laid {
  const onPaper = (path: readonly Segment[]): Segment[] => path.map((segment) => mapSegment(segment, turn));
  const lines = onPaper(linesToCut(part));
  const straight = [chordOf(part.shape), part.shape.type === 'half' ? part.shape.centre : undefined];
  const shown = straight.flatMap((ends): Segment[] =>
    ends ? [{ type: 'line', from: ends[0], to: ends[1] }] : [],
  );
  const bounds = pathBox([...lines, ...onPaper(shown)]);
  if (!Object.values(bounds).every(Number.isFinite)) throw new Error('a line of the part is not finite');
  return { chords: chordsOf(lines), bounds };
}

/** The finished line and the saw line. */
export const linesToCut = ({ shape, saw }: Part): Segment[] => [...finishedLine(shape), ...saw];

interface Plan {
  readonly grid: Grid;
  readonly printed: readonly Place[];
  readonly seams: readonly Seam[];
  readonly crossed: number;
}

function fewestSheets(laid: Laid, options: LayOutOptions): Plan {
  const tries = (['upright', 'lying'] as const).map((orientation) => tryPlan(laid, options, orientation));
  const plans = tries.flatMap((plan) => (plan instanceof Fault ? [] : [plan]));
  plans.sort((a, b) => a.printed.length - b.printed.length || a.crossed - b.crossed || areaOf(a) - areaOf(b));
  const best = plans[0];
  if (best === undefined) throw tries[0];
  return best;
}

/** Of a page: only the pages of a roll differ in it. */
const areaOf = ({ grid }: Plan): number => Math.round(grid.size.width * grid.size.height);

function tryPlan(laid: Laid, options: LayOutOptions, orientation: Orientation): Plan | Fault {
  try {
    return plan(laid, options, orientation);
  } catch (fault) {
    if (fault instanceof Fault) return fault;
    throw fault;
  }
}

function plan({ chords, bounds }: Laid, options: LayOutOptions, orientation: Orientation): Plan {
  const whole = gridOver(bounds, options, orientation);
  const grid = options.paper.roll ? cutRoll(whole, bounds) : whole;
  const printed = places(grid).filter((place) => {
    const share = grown(cellAt(grid, place), CORNER_CLEARANCE_MM);
    return chords.some((chord) => passes(chord, share));
  });
  if (printed.length > MAX_SHEETS) throw tooManySheets(options.paper, printed.length);
  const seams = seamsOf(grid, printed);
  const crossed = seams.filter((seam) => chords.some((chord) => passes(chord, seamBox(seam)))).length;
  return { grid, printed, seams, crossed };
}

const registerMarks = (seam: Seam, lines: readonly Chord[], toPart: Affine): RegisterMark[] =>
  registerCentres(seam, lines).map((at: Point) => ({ at: apply(toPart, at), sheets: seam.sheets }));

function sheetAt(
  place: Place,
  grid: Grid,
  turn: Affine,
  seams: readonly Seam[],
  marks: readonly RegisterMark[],
): Sheet {
  const name = sheetName(place);
  const window = windowAt(grid, place);
  const [x, y] = [grid.margin.left - window.left, grid.margin.bottom - window.bottom];
  const moved = (box: Box): Box => ({
    left: box.left + x,
    right: box.right + x,
    bottom: box.bottom + y,
    top: box.top + y,
  });
  return {
    name,
    ...place,
    size: grid.size,
    stretch: grid.stretch,
    toSheet: shifted(turn, x, y),
    window: moved(window),
    cell: moved(cellAt(grid, place)),
    neighbours: neighboursOf(place, seams),
    marks: marks.filter(({ sheets }) => sheets.includes(name)),
  };
}

function neighboursOf({ row, column }: Place, seams: readonly Seam[]): Neighbours {
  const own = sheetName({ row, column });
  const beyond = (down: number, right: number): string | undefined => {
    const other = sheetName({ row: row + down, column: column + right });
    return seams.some(({ sheets }) => sheets.includes(own) && sheets.includes(other)) ? other : undefined;
  };
  const all = { left: beyond(0, -1), right: beyond(0, 1), above: beyond(-1, 0), below: beyond(1, 0) };
  return Object.fromEntries(Object.entries(all).filter(([, name]) => name !== undefined));
}
