import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { Fault } from '../../units/fault.ts';
import { MAX_LENGTH_MM } from '../../units/parse-length.ts';
import type { Footprint } from '../stock/footprint.ts';
import { type Copy, type CopyOrientation, placeCopy } from './copy-placement.ts';
import { interlockedFigures, interlockedRows } from './interlocked-rows.ts';
import { cachedSeparation } from './min-separation.ts';
import {
  type Arrangement,
  boxedColumns,
  type ColumnSpacing,
  columnLayout,
  copiesOn,
  type NestingContext,
  type NestingFigures,
  type NestingOptions,
  nestingFigures,
} from './nesting-layouts.ts';
import { straightStack } from './stacking.ts';

/** Equal arrangements are preferred in this order: the simplest to mark out first. */
const ARRANGEMENTS: readonly CopyOrientation[] = ['same', 'turned', 'over', 'over-end'];

/** The copies of a part laid on boards. */
export interface Nesting extends NestingFigures {
  /** The closest arrangement, the simplest of equals. */
  readonly way: Arrangement;
  /** The board: as given, or as wide as all copies need. */
  readonly board: { readonly length: number; readonly width: number };
  /** Least clear distance between two copies, mm. */
  readonly gap: number;
  /** The copies on one board, counted from 1. */
  readonly copiesOn: (board: number) => readonly Copy[];
  /** How many layouts were compared. */
  readonly tried: number;
  /** The best of every arrangement that was tried, the best one among them. */
  readonly ways: readonly NestingFigures[];
  /** The same if each copy were a rectangle: what following the curve saves. */
  readonly rectangles: NestingFigures;
}

/**
 * The closest of the layouts tried, its copies apart by the kerf and `between`, exact within OUTLINE_TOLERANCE_MM: in
 * columns, or, on a board of a given width, in rows pushed into each other where more copies then go on it.
 * @throws Fault `nesting.too-short`, `nesting.too-narrow`, `nesting.too-large`, `nesting.kerf`, `nesting.between`
 */
export function nest(footprint: Footprint, options: NestingOptions): Nesting {
  assertSpacing(options);
  assertPartFits(footprint, options.board);
  const gap = options.kerf + options.between;
  const context: NestingContext = { footprint, options, gap, separation: cachedSeparation(footprint, gap) };
  const boxed = boxedColumns(footprint, options.board.length, gap);
  const rectangles = nestingFigures('rectangles', straightStack(footprint.width + gap), boxed, context);
  const layouts = arrangementsFor(options).map((way) => layoutFor(way, boxed, context));
  const best = layouts.reduce((a, b) => (isBetter(b.figures, a.figures) ? b : a));
  const board = { length: options.board.length, width: options.board.width ?? best.figures.width };
  return {
    ...best.figures,
    board,
    gap,
    copiesOn: best.copiesOn,
    tried: layouts.reduce((sum, { tried }) => sum + tried, 0),
    ways: layouts.map(({ figures }) => figures),
    rectangles,
  };
}

/** In columns, which are simple to mark out, or, where more copies then go on a board, in rows pushed into each other. */
function layoutFor(way: Arrangement, boxed: ColumnSpacing, context: NestingContext) {
  const { footprint, options } = context;
  const byHand = way === 'by-hand';
  const columns = columnLayout(byHand ? 'turned' : way, boxed, context);
  const figures = { ...columns.figures, way };
  const inColumns = { figures, tried: 1, copiesOn: (number: number) => copiesOn(number, columns, context) };
  if (options.board.width === undefined) return inColumns;
  const rows = interlockedRows(
    { way, mirrored: options.handed && options.mirrored },
    options.board.width,
    context,
  );
  const inRows = interlockedFigures(figures, rows, context);
  const tried = 1 + rows.tried;
  if (!byHand && !isBetter({ ...inRows, pitch: figures.pitch }, figures)) return { ...inColumns, tried };
  const onBoard = (number: number): Copy[] =>
    (rows.boards[number - 1] ?? []).map((place) => placeCopy(footprint, place));
  return { figures: inRows, tried, copiesOn: onBoard };
}

/** Fewer boards win, then more copies on a board, then a pitch smaller by enough to matter. */
function isBetter(a: NestingFigures, b: NestingFigures): boolean {
  if (a.boards !== b.boards) return a.boards < b.boards;
  return a.perBoard !== b.perBoard ? a.perBoard > b.perBoard : a.pitch < b.pitch - MIN_PITCH_GAIN_MM;
}

/** A smaller gain is not worth turning a pattern for. */
const MIN_PITCH_GAIN_MM = 0.1;

function arrangementsFor({ handed, mirrored, quantity, board }: NestingOptions): readonly Arrangement[] {
  if (!handed) return ARRANGEMENTS;
  if (!mirrored) return ['same', 'turned'];
  return quantity < 4 || board.width === undefined ? ['over', 'over-end'] : ['over', 'over-end', 'by-hand'];
}

/** More than any saw cuts, and than serves any curve, mm. Common practice, no published source. */
const [MAX_KERF_MM, MAX_BETWEEN_MM] = [25.4, 304.8];

function assertSpacing({ kerf, between }: NestingOptions): void {
  if (!(kerf >= 0 && kerf <= MAX_KERF_MM))
    throw new Fault(
      'nesting.kerf',
      (mm) =>
        `${mm(kerf)} is not the kerf of a saw. Give the width of your saw’s cut, ${mm(MAX_KERF_MM)} at most.`,
      '--kerf',
    );
  if (!(between >= 0 && between <= MAX_BETWEEN_MM))
    throw new Fault(
      'nesting.between',
      (mm) => `${mm(between)} is not a space between copies. Use 0 to ${mm(MAX_BETWEEN_MM)}.`,
      '--between',
    );
}

function assertPartFits(footprint: Footprint, board: NestingOptions['board']): void {
  if (Math.max(board.length, board.width ?? 0) > MAX_LENGTH_MM)
    throw new Fault(
      'nesting.too-large',
      (mm) => `the board is larger than ${mm(MAX_LENGTH_MM)}. Check its length and width.`,
    );
  for (const [side, code, way] of [
    ['length', 'nesting.too-short', 'along'],
    ['width', 'nesting.too-narrow', 'across'],
  ] as const) {
    const [part, have] = [footprint[side], board[side] ?? Number.POSITIVE_INFINITY];
    if (!(part <= have + JOIN_MM))
      throw new Fault(
        code,
        (mm) =>
          `the part needs ${mm(part)} ${way} the board, which has ${mm(have)}. Use a board of ${mm(part)} or more.`,
        `--board-${side}`,
      );
  }
}
