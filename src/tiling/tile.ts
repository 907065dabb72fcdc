import { type Affine, invert, rotate, transformPoint } from '../curves/geometry/affine.ts';
import { squareAround } from '../curves/geometry/bounds.ts';
import { type Chord, flatten } from '../curves/geometry/flatten.ts';
import type { Point } from '../curves/geometry/point.ts';
import type { Part } from '../part/part.ts';
import { Fault } from '../units/fault.ts';
import { diagonals, placeCheckCrosses } from './check-crosses.ts';
import { indexChordsByCell } from './grid/chord-index.ts';
import { type Grid, type GridCell, type SheetFrame, sheetFrame } from './grid/grid.ts';
import { type LinesToTile, linesToTile } from './grid/lines-to-tile.ts';
import { makeSheets } from './grid/make-sheets.ts';
import { minSheets } from './grid/min-sheets.ts';
import { planRoll } from './grid/roll-pages.ts';
import { printedCells, type TurnedChords, turnChords } from './grid/row-spans.ts';
import { findSeams, REGISTER_REACH_MM, registerMarkCentres } from './grid/seams.ts';
import { bestPlan, COARSE_CHORD_MM, centredSheetCount, type SearchSubject } from './grid/search-grid.ts';
import type { Layout, RegisterMark, Sheet } from './layout.ts';
import { marginSides } from './paper/margins.ts';
import type { PageOptions } from './paper/page-frame.ts';
import { paperTitle } from './paper/paper-sizes.ts';
import { patternCode } from './pattern-code.ts';

/** 1/2 in: nearly every desktop printer reaches that close to the edge; 6 mm is the risk of some. */
export const DEFAULT_MARGIN_MM = 12.7;

/** Room for a register mark and, beyond the trim line, for the neighbor's name in type of 3 mm. */
export const DEFAULT_OVERLAP_MM = 15;

/** A register mark from arm to arm. With less overlap each sheet would show only a part of it. */
export const MIN_OVERLAP_MM = 2 * REGISTER_REACH_MM;

/** The error of 200 seams is larger than the kerf, the pile thicker than a tray. For more, give the number. */
export const DEFAULT_MAX_SHEETS = 200;

/** A wall of paper 20 m by 30 m is no pattern of a part. */
export const MAX_SHEETS = 10_000;

export interface LayOutOptions extends PageOptions {
  /** What neighboring sheets share, mm, ≥ MIN_OVERLAP_MM. */
  readonly overlap: number;
  /** How far to turn the part on the paper, counter-clockwise, degrees; 'auto' looks for the best turn. */
  readonly turn: 'auto' | number;
  /** A pattern of more is refused before it is built: a whole number up to MAX_SHEETS. */
  readonly maxSheets?: number;
}

/**
 * The part laid over the fewest sheets that a search over the turn, the shift of the grid and both ways
 * the paper may lie finds; `bestPlan` tells which of equals it takes. Sheets that no line touches are
 * left out. The same part and options give the same layout on every machine. @throws Fault `layout.…`
 */
export const layOut = (part: Part, options: LayOutOptions): Layout => layOutLines(linesToTile(part), options);

/** `layOut` for any lines. */
export function layOutLines(lines: LinesToTile, options: LayOutOptions): Layout {
  validateOptions(options);
  const chords = flatten(lines.all);
  if (!chords.every(isFiniteChord)) throw new Error('a line of the part is not finite');
  const { turnDeg, grid, plainSheets, lowerBound } = planGrid(lines, chords, options);
  const turn = rotate(turnDeg);
  const laid = turnChords(chords, turn, lines.extraPoints);
  const printed = printedCells(laid, grid);
  const toPart = invert(turn);
  const marks = placeRegisterMarks(laid, grid, printed, toPart);
  const taken = marks.map(({ at }) => squareAround(transformPoint(turn, at), REGISTER_REACH_MM + 1));
  const crosses = placeCheckCrosses(grid, printed, laid.chords, taken).map((cross) => {
    return { ...cross, at: transformPoint(toPart, cross.at) };
  });
  const sheets = makeSheets(printed, grid, turn, marks);
  const { orientation, rows, columns, overlap } = grid;
  return {
    paper: options.paper,
    orientation,
    turnDeg,
    margin: marginSides(options.margin),
    ...(options.printer && { printer: options.printer }),
    overlap,
    rows,
    columns,
    sheets: sheets as [Sheet, ...Sheet[]],
    plainSheets,
    lowerBound,
    crosses,
    checks: [...lines.checks, ...diagonals(crosses)],
    code: patternCode([...lines.identity, sheets]),
  };
}

/** The best grid and turn. A pattern whose lower bound is too many is refused before the search. */
function planGrid(lines: LinesToTile, chords: readonly Chord[], options: LayOutOptions) {
  const frames = usableFrames(options);
  const lowerBound = minSheets(points(flatten(lines.finished)), frames);
  const { extraPoints, landmarks } = lines;
  const subject = { chords, coarse: flatten(lines.all, COARSE_CHORD_MM), extraPoints, landmarks };
  if (lowerBound > maxSheetsOf(options)) throw tooManyByBound(subject, frames, lowerBound, options);
  const search = options.paper.roll ? planRoll : bestPlan;
  const plan = search(subject, frames, options.turn, lowerBound);
  if (plan.sheets > maxSheetsOf(options)) throw tooManySheetsFault(plan.sheets, options);
  return { ...plan, plainSheets: centredSheetCount(subject, frames[0]), lowerBound };
}

/** Landscape paper may have no room: its margins are never narrower than those of portrait paper. */
function usableFrames(options: LayOutOptions): readonly [SheetFrame, ...SheetFrame[]] {
  const upright = sheetFrame(options, 'upright');
  try {
    return [upright, sheetFrame(options, 'lying')];
  } catch (error) {
    if (error instanceof Fault) return [upright];
    throw error;
  }
}

function placeRegisterMarks(laid: TurnedChords, grid: Grid, printed: readonly GridCell[], toPart: Affine) {
  const near = indexChordsByCell(laid, grid);
  return findSeams(grid, printed).flatMap(({ sheets, ...seam }) => {
    const centres = registerMarkCentres(seam, near(seam.cells[1]));
    return centres.map((at): RegisterMark => ({ at: transformPoint(toPart, at), sheets }));
  });
}

function validateOptions({ margin, overlap, turn, maxSheets = DEFAULT_MAX_SHEETS }: LayOutOptions): void {
  const wrong = Object.values(marginSides(margin)).find((side) => !(side >= 0 && Number.isFinite(side)));
  if (wrong !== undefined)
    throw new Fault(
      'layout.margin',
      (length) => `a margin is ${length(wrong)}. Use ${length(0)} or more.`,
      '--margin',
    );
  if (!(overlap >= MIN_OVERLAP_MM && Number.isFinite(overlap)))
    throw new Fault(
      'layout.overlap',
      (length) =>
        `an overlap of ${length(overlap)} is too small for a register mark. Use ${length(MIN_OVERLAP_MM)} or more.`,
      '--overlap',
    );
  if (turn !== 'auto' && !Number.isFinite(turn))
    throw new Fault('layout.turn', `the rotation is ${turn}. Use a number of degrees, or auto.`, '--turn');
  if (!(Number.isInteger(maxSheets) && maxSheets >= 1 && maxSheets <= MAX_SHEETS))
    throw new Fault(
      'layout.max-sheets',
      `${maxSheets} is not a number of sheets. Use a whole number from 1 to ${MAX_SHEETS}.`,
      '--max-sheets',
    );
}

const maxSheetsOf = ({ maxSheets = DEFAULT_MAX_SHEETS }: LayOutOptions): number => maxSheets;

const points = (chords: readonly Chord[]): Point[] => chords.flatMap(({ from, to }) => [from, to]);

const isFiniteChord = (chord: Chord): boolean =>
  points([chord]).every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y));

function tooManyByBound(
  subject: SearchSubject,
  frames: readonly SheetFrame[],
  lowerBound: number,
  options: LayOutOptions,
): Fault {
  if (lowerBound > MAX_SHEETS) return tooManySheetsFault(lowerBound, options);
  const plain = Math.min(...frames.map((frame) => centredSheetCount(subject, frame)));
  return tooManySheetsFault(plain, options, plain > lowerBound ? 'up to ' : '');
}

/** @param upTo where the sheets are those of a layout that was not searched for */
function tooManySheetsFault(sheets: number, options: LayOutOptions, upTo: 'up to ' | '' = ''): Fault {
  const name = paperTitle(options.paper);
  const larger = 'use larger paper, such as a3, tabloid or a size of your own';
  if (sheets > MAX_SHEETS)
    return new Fault(
      'layout.too-many-sheets',
      `the pattern needs more than ${MAX_SHEETS} sheets of ${name}. Look for a mistake in its lengths, or ${larger}.`,
    );
  return new Fault(
    'layout.too-many-sheets',
    `the pattern needs ${upTo}${sheets} sheets of ${name}, but the limit is ${maxSheetsOf(options)}. Raise the limit to ${sheets}, or ${larger}.`,
    '--max-sheets',
  );
}
