import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { CopyOrientation, CopyPosition } from './copy-placement.ts';
import {
  ANY_NUMBER,
  type Field,
  type Filled,
  fill,
  type Hands,
  isOver,
  type Rows,
  type Spot,
  turnsOf,
  type Wish,
} from './fill-rows.ts';
import { cachedSeparation, type Separation } from './min-separation.ts';
import {
  type Arrangement,
  type NestingContext,
  type NestingFigures,
  type NestingLayout,
  yieldOf,
} from './nesting-layouts.ts';

export interface RowLayout {
  /** Along the board, or across it. */
  readonly along: boolean;
  readonly rows: number;
  readonly perBoard: number;
  readonly boards: readonly (readonly CopyPosition[])[];
  readonly tried: number;
}

/** Shifts tried to either side, shared by the rows, and how often the best one's step is then halved. */
const [SHIFTS, HALVINGS] = [12, 5];
const MAX_ROWS = 10;
/** The first search rounds shifts to this share of the part, and fills so many lengths of it: rows repeat by then. */
const [ROUGH_SHARE, TRIAL_LENGTHS] = [1 / 64, 5];
/** Shifts this near are one, mm. */
const SAME_SHIFT_MM = 1e-6;
const FINALISTS = 4;
const ORIENTATIONS: readonly CopyOrientation[] = ['same', 'turned', 'over', 'over-end'];

function roundedShifts(separation: Separation, step: number): Separation {
  const known = new Map<number, number>();
  return (below, above, shift) => {
    const place = Math.round(shift / step);
    const key = (place * 4 + ORIENTATIONS.indexOf(below)) * 4 + ORIENTATIONS.indexOf(above);
    const found = known.get(key) ?? separation(below, above, place * step);
    known.set(key, found);
    return found;
  };
}

function fieldOf(along: boolean, { footprint, options, gap }: NestingContext, boardWidth: number): Field {
  const [board, part] = [
    [options.board.length, boardWidth],
    [footprint.length, footprint.width],
  ] as const;
  const [u, v] = along ? ([0, 1] as const) : ([1, 0] as const);
  const [exact, sideways] = (along ? (['along', 'across'] as const) : (['across', 'along'] as const)).map(
    (way) => cachedSeparation(footprint, gap, way),
  ) as [Separation, Separation];
  return {
    along,
    size: part[u],
    reach: board[u] - part[u] + JOIN_MM,
    room: Math.max(0, board[v] - part[v]),
    span: part[u] + gap,
    exact: roundedShifts(exact, SAME_SHIFT_MM),
    rough: roundedShifts(exact, part[v] * ROUGH_SHARE),
    sideways: roundedShifts(sideways, SAME_SHIFT_MM),
  };
}

interface Found extends Filled {
  readonly field: Field;
  readonly rows: Rows;
}

/** Small shifts matter more than large ones: they leave the rows apart. */
function rowsToTry(field: Field, wish: Wish, maxRows: number): Rows[] {
  return Array.from({ length: maxRows }, (_, i) => i + 1).flatMap((count) => {
    const steps = Math.ceil((2 * SHIFTS) / (count + 1));
    const shares = Array.from({ length: 2 * steps + 1 }, (_, i) => i / steps - 1);
    const shifts = field.room > 0 ? shares.map((share) => share * Math.abs(share) * field.room) : [0];
    return [
      ...shifts.flatMap((shift) =>
        (wish.way === 'same' ? [0] : count === 1 ? [0, 3] : [0, 1, 2, 3]).map((starts) => ({
          count,
          shift,
          starts,
        })),
      ),
      ...Array.from({ length: 2 * SHIFTS + 1 }, (_, i) => i / SHIFTS - 1).flatMap((share) =>
        (wish.way === 'same' ? [1] : [1, -1]).flatMap((side) =>
          pairRows(field, wish, count, share * field.size, side),
        ),
      ),
    ];
  });
}

/** Rows of pairs that touch sideways, the second above the first (side 1) or below it (−1); none where they find no room. */
function pairRows(field: Field, { way, mirrored }: Wish, count: number, lag: number, side: number): Rows[] {
  const [first, second] = turnsOf(way, mirrored, ANY_NUMBER) as [CopyOrientation, CopyOrientation];
  const lift = side > 0 ? field.sideways(first, second, lag) : field.sideways(second, first, -lag);
  return lift > 0 && lift <= field.room ? [{ count, shift: side * lift, starts: 0, lag }] : [];
}

/** The same with every other copy a little farther one way or the other. */
const rowsNear = (field: Field, wish: Wish, { lag, ...rows }: Rows, step: number): Rows[] =>
  [step, -step].flatMap((by): Rows[] => {
    if (lag !== undefined)
      return pairRows(field, wish, rows.count, lag + by * field.size, Math.sign(rows.shift));
    const shift = rows.shift + by * field.room;
    return Math.abs(shift) <= field.room ? [{ ...rows, shift }] : [];
  });

const isCloser = (a: Filled, b: Filled): boolean =>
  a.placed.length !== b.placed.length ? a.placed.length > b.placed.length : a.next < b.next;

/** The rows, along and across the board, that take the most copies. */
export function interlockedRows(wish: Wish, boardWidth: number, context: NestingContext): RowLayout {
  const { options } = context;
  let tried = 0;
  const found = [true, false].map((along) => {
    const field = fieldOf(along, context, boardWidth);
    const search = (rows: Rows, by: Separation, on = field, thorough = false): Found => {
      tried++;
      return { field, rows, ...fill(on, wish, rows, by, ANY_NUMBER, thorough) };
    };
    const trial = { ...field, reach: Math.min(field.reach, TRIAL_LENGTHS * field.size) };
    const maxRows = Math.min(MAX_ROWS, 1 + Math.floor(field.room / (options.area / field.size)));
    const ranked = rowsToTry(field, wish, maxRows)
      .map((rows) => search(rows, field.rough, trial))
      .sort((a, b) => (isCloser(a, b) ? -1 : 1));
    const refined = ranked.slice(0, FINALISTS).map(({ rows }) => {
      let best = search(rows, field.exact);
      let step = 1 / (rows.lag === undefined ? Math.ceil((2 * SHIFTS) / (rows.count + 1)) : SHIFTS);
      for (let i = 0; i < HALVINGS; i++) {
        step /= 2;
        for (const near of rowsNear(field, wish, best.rows, step)) {
          const next = search(near, field.exact);
          if (isCloser(next, best)) best = next;
        }
      }
      return best;
    });
    const most = Math.max(...refined.map(({ placed }) => placed.length));
    const finished = refined
      .filter(({ placed }) => placed.length === most)
      .map(({ rows }) => search(rows, field.exact, field, true));
    return finished.reduce((a, b) => (isCloser(b, a) ? b : a));
  });
  const best = found.reduce((a, b) => (isCloser(b, a) ? b : a));
  const { field, rows, placed } = best;
  return {
    along: field.along,
    rows: rows.count,
    perBoard: placed.length,
    boards: fillBoards(best, wish, options.quantity),
    tried,
  };
}

/** Board after board, until all copies lie. */
function fillBoards({ field, rows, placed: full }: Found, wish: Wish, quantity: number): CopyPosition[][] {
  const boards: CopyPosition[][] = [];
  const half = Math.floor(quantity / 2);
  let left: Hands = wish.mirrored ? [quantity - half, half] : [quantity, 0];
  const after = (board: readonly Spot[]): Hands => {
    const second = wish.mirrored ? board.filter(({ orientation }) => isOver(orientation)).length : 0;
    return [left[0] - board.length + second, left[1] - second];
  };
  while (left[0] + left[1] > 0) {
    const isFull = after(full).every((count) => count >= 0);
    const board = isFull ? full : fill(field, wish, rows, field.exact, left, true).placed;
    left = after(board);
    boards.push(
      board.map(({ u, v, orientation }) => ({ x: field.along ? u : v, y: field.along ? v : u, orientation })),
    );
  }
  return boards;
}

/** What the copies take where they lie in rows pushed into each other, instead of columns. */
export function interlockedFigures(
  columns: NestingFigures & { readonly way: Arrangement },
  { rows, along, perBoard, boards }: RowLayout,
  { footprint, options }: NestingContext,
): NestingLayout['figures'] {
  const other = Math.ceil(perBoard / rows);
  const width = footprint.width + Math.max(...boards.flat().map(({ y }) => y));
  return {
    ...columns,
    interlocked: true,
    across: along ? rows : other,
    along: along ? other : rows,
    perBoard,
    boards: boards.length,
    width,
    yield: yieldOf(perBoard, width, options),
  };
}
