import type { Segment } from '../curves/piece.ts';
import { type Matrix, mapSegment } from '../curves/segment.ts';
import { JOIN_MM } from '../curves/tolerance.ts';
import { Fault } from '../units/fault.ts';
import type { Footprint } from './footprint.ts';
import { liftOver, type Sides, sidesOf } from './least-pitch.ts';
import { leastStack, type Stack, type StackPlace, straightStack } from './stack.ts';

/**
 * How copies lie beside each other across the board: all the same way up, or every other one turned end for end on
 * the same face, turned over lengthwise, or turned over end for end.
 */
export type Way = 'same' | 'turned' | 'over' | 'over-end';

/** The order in which equal ways are preferred: the simplest to mark out first. */
const WAYS: readonly Way[] = ['same', 'turned', 'over', 'over-end'];

export interface NestingWish {
  /** How many are wanted. */
  readonly quantity: number;
  /** Area of one finished part, mm². */
  readonly area: number;
  /** A part that differs from its mirror image turned over may not be turned over. */
  readonly handed: boolean;
  /** Half of them are mirror images. */
  readonly mirrored: boolean;
  /** What the saw takes between two parts, and what is left beside it, mm. */
  readonly kerf: number;
  readonly between: number;
  readonly board: {
    readonly length: number;
    /** Absent: as wide as all of them need. */
    readonly width?: number;
  };
}

/** One way to lay the copies out, and what comes of it. */
export interface Laid {
  readonly way: Way | 'rectangles';
  /** From one copy to the next across the board, mm, on average over those on a board (two at least). */
  readonly pitch: number;
  readonly across: number;
  readonly along: number;
  readonly perBoard: number;
  /** Boards for the quantity. */
  readonly boards: number;
  /** The width of the board that the copies take, mm. */
  readonly width: number;
  /** Share of a full board that becomes parts. */
  readonly yield: number;
}

export interface Nesting extends Laid {
  readonly way: Way;
  /** The board: as given, or as wide as all copies need. */
  readonly board: { readonly length: number; readonly width: number };
  /** Least clear distance between two copies, mm. */
  readonly gap: number;
  /** The copies on the first board, at most as many as are wanted. */
  readonly copies: readonly Copy[];
  readonly ways: readonly Laid[];
  readonly rectangles: Laid;
}

/** One copy on the board. */
export interface Copy {
  /** From the part's frame to the board's: x along it from its lower left corner, y across. Keeps shapes. */
  readonly toBoard: Matrix;
  /** Whether it lies turned over: the pattern's back is up. */
  readonly over: boolean;
}

/**
 * Lays the copies of a part out on boards: across as close as the outlines allow, each clear of the next by the
 * kerf and what is left beside it; along, one behind the other, or, where more go on a board, column into column.
 *
 * The shift along the board that lets them lie closest is sought within the room that the board's length leaves; the
 * pitch at that shift is exact within LAID_WITHIN_MM (see there).
 * @throws Fault `nesting.too-short`, `nesting.too-narrow` where a board does not take one part
 */
export function nest(footprint: Footprint, wish: NestingWish): Nesting {
  mustTakeOne(footprint, wish.board);
  const ground: Ground = { footprint, wish, gap: wish.kerf + wish.between };
  const { gap } = ground;
  const boxed = boxedColumns(footprint, wish.board.length, gap);
  const rectangles = laid('rectangles', straightStack(footprint.width + gap), boxed, ground);
  const layouts = waysFor(wish).map((way) => bestOf(layoutsOf(way, boxed, ground)));
  const best = bestOf(layouts);
  const board = { length: wish.board.length, width: wish.board.width ?? best.laid.width };
  const ways = layouts.map((layout) => layout.laid);
  return { ...best.laid, board, gap, copies: copiesOn(best, ground), ways, rectangles };
}

const bestOf = (layouts: readonly Layout[]): Layout =>
  layouts.reduce((a, b) => (isBetter(b.laid, a.laid) ? b : a));

/** More on a board, or as many nearer together by what is worth it. */
const isBetter = (a: Laid, b: Laid): boolean =>
  a.perBoard !== b.perBoard ? a.perBoard > b.perBoard : a.pitch < b.pitch - WORTH_MM;

/** A way that saves less is not worth turning a pattern for. */
const WORTH_MM = 0.1;

/** A part that is not handed may lie any way; a handed one only turned, its mirror image only over. */
function waysFor({ handed, mirrored }: NestingWish): readonly Way[] {
  if (!handed) return WAYS;
  return mirrored ? ['over', 'over-end'] : ['same', 'turned'];
}

interface Ground {
  readonly footprint: Footprint;
  readonly wish: NestingWish;
  readonly gap: number;
}

/** How columns of copies follow each other along the board. */
interface Columns {
  readonly along: number;
  /** How far the copies of a column may be shifted along. */
  readonly slack: number;
  /** From one column to the next, mm; absent: each as long as its copies take, with the gap. */
  readonly pitch?: number;
}

/** One way, laid. */
interface Layout {
  readonly laid: Laid & { readonly way: Way };
  readonly stack: Stack;
  readonly columns: Columns;
}

function mustTakeOne({ length, width }: Footprint, board: NestingWish['board']): void {
  if (length > board.length + JOIN_MM)
    throw new Fault(
      'nesting.too-short',
      (mm) =>
        `the part takes ${mm(length)} along a board of ${mm(board.length)}. Take one of ${mm(length)} or more.`,
      '--board-length',
    );
  if (board.width !== undefined && width > board.width + JOIN_MM)
    throw new Fault(
      'nesting.too-narrow',
      (mm) =>
        `the part takes ${mm(width)} across a board of ${mm(board.width!)}. Take one of ${mm(width)} or more.`,
      '--board-width',
    );
}

function boxedColumns({ length }: Footprint, board: number, gap: number): Columns {
  const along = Math.max(1, Math.floor((board + gap + JOIN_MM) / (length + gap)));
  return { along, slack: Math.max(0, (board + gap) / along - gap - length) };
}

function layoutsOf(way: Way, boxed: Columns, ground: Ground): Layout[] {
  const { paths, length, width } = ground.footprint;
  const other = paths.map((path) => path.map((segment) => mapSegment(segment, turnOf(way, length, width))));
  const layout = (stack: Stack, columns: Columns): Layout => ({
    stack,
    columns,
    laid: laid(way, stack, columns, ground),
  });
  const stack = stackFor(way, [paths, other], boxed, ground);
  const first = layout(stack, boxed);
  if (ground.wish.board.width === undefined || swapsHands(ground.wish, first.laid.across)) return [first];
  const straight = stackFor(way, [paths, other], { along: 1, slack: 0 }, ground);
  const pitch = columnPitch(straight.places(acrossOf(straight, boxed, ground)), [paths, other], ground);
  const along = 1 + Math.floor((ground.wish.board.length - length + JOIN_MM) / pitch);
  return [first, layout(straight, { along, slack: 0, pitch })];
}

type Paths = Footprint['paths'];

function stackFor(way: Way, [own, other]: readonly [Paths, Paths], columns: Columns, ground: Ground): Stack {
  const [a, b] = [sidesOf(own), sidesOf(other)];
  // What would clear a rectangle is always enough.
  const most = ground.footprint.width + ground.gap;
  const lift = (below: Sides, above: Sides) => (shift: number) =>
    Math.min(liftOver(below, above, shift, ground.gap), most);
  return leastStack(
    { same: lift(a, a), otherSame: lift(b, b), toOther: lift(a, b), fromOther: lift(b, a) },
    { alike: way === 'same', slack: columns.slack, across: (stack) => acrossOf(stack, columns, ground) },
  );
}

/**
 * The least way along from a column to the next one like it: copies are laid beside each other as they are across, with
 * the board's two directions exchanged. Rows repeat by twos, so that every pair of neighbours has one of the first two.
 */
function columnPitch(
  rows: readonly StackPlace[],
  paths: readonly [Paths, Paths],
  { footprint, gap }: Ground,
): number {
  const [own, other] = paths.map((all) =>
    sidesOf(all.map((path) => path.map((segment) => mapSegment(segment, [0, 1, 1, 0, 0, 0])))),
  ) as [Sides, Sides];
  const sides = ({ other: isOther }: StackPlace): Sides => (isOther ? other : own);
  const near = (p: StackPlace, q: StackPlace): boolean => Math.abs(p.y - q.y) < footprint.width + gap + 1;
  const pitches = rows
    .slice(0, 2)
    .flatMap((p) =>
      rows
        .filter((q) => near(p, q))
        .flatMap((q) => [
          liftOver(sides(p), sides(q), q.y - p.y, gap),
          liftOver(sides(q), sides(p), p.y - q.y, gap),
        ]),
    );
  return Math.min(Math.max(...pitches), footprint.length + gap);
}

/** How many copies lie across the board. */
function acrossOf(stack: Stack, { along }: Columns, { footprint, wish }: Ground): number {
  const { width } = wish.board;
  if (width === undefined) return Math.ceil(wish.quantity / along);
  return stack.within(width - footprint.width + JOIN_MM);
}

function laid<T extends Laid['way']>(
  way: T,
  stack: Stack,
  columns: Columns,
  ground: Ground,
): Laid & { way: T } {
  const { footprint, wish } = ground;
  const across = acrossOf(stack, columns, ground);
  const width = footprint.width + stack.height(across);
  const perBoard = across * columns.along;
  const shown = Math.max(2, across);
  return {
    way,
    pitch: stack.height(shown) / (shown - 1),
    across,
    along: columns.along,
    perBoard,
    boards: Math.ceil(wish.quantity / perBoard),
    width,
    yield: (perBoard * wish.area) / (wish.board.length * (wish.board.width ?? width)),
  };
}

/** A copy's own turn within its length and width. */
function turnOf(way: Way, length: number, width: number): Matrix {
  switch (way) {
    case 'same':
      return [1, 0, 0, 1, 0, 0];
    case 'turned':
      return [-1, 0, 0, -1, length, width];
    case 'over':
      return [1, 0, 0, -1, 0, width];
    case 'over-end':
      return [-1, 0, 0, 1, length, 0];
  }
}

/** Column after column along the board; of mirrored ones every other copy is the other hand, counted through. */
function copiesOn({ laid, stack, columns }: Layout, { footprint, wish, gap }: Ground): Copy[] {
  const column = stack.places(laid.across);
  const turn = turnOf(laid.way, footprint.length, footprint.width);
  const pitch = columns.pitch ?? Math.max(...column.map(({ x }) => x)) + footprint.length + gap;
  const both = [column, swapsHands(wish, laid.across) ? otherHand(column, laid.way) : column];
  return Array.from({ length: Math.min(laid.perBoard, wish.quantity) }, (_, i): Copy => {
    const number = Math.floor(i / laid.across);
    const place = both[number % 2]![i % laid.across]!;
    const [a, b, c, d, e, f] = place.other ? product(turn, footprint.toBoard) : footprint.toBoard;
    return {
      toBoard: [a, b, c, d, e + number * pitch + place.x, f + place.y],
      over: a * d - b * c < 0,
    };
  });
}

/** With an odd number across, the other hand leads in every other column of mirrored copies. */
const swapsHands = ({ handed, mirrored }: NestingWish, across: number): boolean =>
  handed && mirrored && across % 2 === 1;

/** The mirror image of a column, lowest copy first. */
function otherHand(column: readonly StackPlace[], way: Way): StackPlace[] {
  const [length, height] = [Math.max(...column.map(({ x }) => x)), column.at(-1)!.y];
  return way === 'over-end'
    ? column.map(({ x, y, other }) => ({ x: length - x, y, other: !other }))
    : column.map(({ x, y, other }) => ({ x, y: height - y, other: !other })).reverse();
}

/** First the inner matrix, then the outer one. */
function product([a, b, c, d, e, f]: Matrix, [p, q, r, s, t, u]: Matrix): Matrix {
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f];
}

/** A copy's outline on the board. */
export const onBoard = ({ toBoard }: Copy, path: readonly Segment[]): Segment[] =>
  path.map((segment) => mapSegment(segment, toBoard));
