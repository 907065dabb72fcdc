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
 * kerf and what is left beside it; along, one behind the other.
 *
 * The shift along the board that lets them lie closest is sought within the room that the board's length leaves; the
 * pitch at that shift is exact within LAID_WITHIN_MM (see there).
 * @throws Fault `nesting.too-short`, `nesting.too-narrow` where a board does not take one part
 */
export function nest(footprint: Footprint, wish: NestingWish): Nesting {
  const ground = groundOf(footprint, wish);
  const rectangles = laid('rectangles', straightStack(footprint.width + ground.gap), ground);
  const stacks = new Map(waysFor(wish).map((way) => [way, stackFor(way, footprint, ground)]));
  const ways = [...stacks].map(([way, stack]) => laid(way, stack, ground));
  const best = ways.reduce((a, b) => (isBetter(b, a) ? b : a)) as Laid & { way: Way };
  const board = { length: wish.board.length, width: ground.width ?? best.width };
  const copies = copiesOn(best, stacks.get(best.way)!, ground);
  return { ...best, board, gap: ground.gap, copies, ways, rectangles };
}

/** More on a board, or as many nearer together by what can be measured. */
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
  /** The board's width where it is given. */
  readonly width: number | undefined;
  readonly along: number;
  /** How far copies across the board may be shifted along it. */
  readonly slack: number;
}

function groundOf(footprint: Footprint, wish: NestingWish): Ground {
  const { board, kerf, between } = wish;
  const gap = kerf + between;
  if (footprint.length > board.length + JOIN_MM)
    throw new Fault(
      'nesting.too-short',
      (mm) =>
        `the part takes ${mm(footprint.length)} along a board of ${mm(board.length)}. Take one of ${mm(footprint.length)} or more.`,
      '--board-length',
    );
  if (board.width !== undefined && footprint.width > board.width + JOIN_MM)
    throw new Fault(
      'nesting.too-narrow',
      (mm) =>
        `the part takes ${mm(footprint.width)} across a board of ${mm(board.width!)}. Take one of ${mm(footprint.width)} or more.`,
      '--board-width',
    );
  const along = Math.max(1, Math.floor((board.length + gap + JOIN_MM) / (footprint.length + gap)));
  const slack = Math.max(0, (board.length + gap) / along - gap - footprint.length);
  return { footprint, wish, gap, width: board.width, along, slack };
}

function stackFor(way: Way, { paths, length, width }: Footprint, ground: Ground): Stack {
  const [a, b] = [
    sidesOf(paths),
    sidesOf(paths.map((path) => path.map((segment) => mapSegment(segment, turnOf(way, length, width))))),
  ];
  // What would clear a rectangle is always enough.
  const lift = (below: Sides, above: Sides) => (shift: number) =>
    Math.min(liftOver(below, above, shift, ground.gap), width + ground.gap);
  return leastStack(
    { same: lift(a, a), otherSame: lift(b, b), toOther: lift(a, b), fromOther: lift(b, a) },
    { alike: way === 'same', slack: ground.slack, across: (stack) => acrossOf(stack, ground) },
  );
}

/** How many copies lie across the board. */
function acrossOf(stack: Stack, { footprint, wish, width, along }: Ground): number {
  if (width === undefined) return Math.ceil(wish.quantity / along);
  return stack.within(width - footprint.width + JOIN_MM);
}

function laid(way: Laid['way'], stack: Stack, ground: Ground): Laid {
  const { footprint, wish, along } = ground;
  const across = acrossOf(stack, ground);
  const width = footprint.width + stack.height(across);
  const perBoard = across * along;
  const shown = Math.max(2, across);
  return {
    way,
    pitch: stack.height(shown) / (shown - 1),
    across,
    along,
    perBoard,
    boards: Math.ceil(wish.quantity / perBoard),
    width,
    yield: (perBoard * wish.area) / (wish.board.length * (ground.width ?? width)),
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
function copiesOn(best: Laid & { way: Way }, stack: Stack, { footprint, wish, gap }: Ground): Copy[] {
  const count = Math.min(best.perBoard, wish.quantity);
  const across = Math.ceil(count / best.along);
  const column = stack.places(across);
  const turn = turnOf(best.way, footprint.length, footprint.width);
  const pitch = (wish.board.length + gap) / best.along;
  const swaps = wish.handed && wish.mirrored && across % 2 === 1;
  const columns = [column, swaps ? otherHand(column, best.way) : column];
  return Array.from({ length: count }, (_, i): Copy => {
    const number = Math.floor(i / across);
    const place = columns[number % 2]![i % across]!;
    const [a, b, c, d, e, f] = place.other ? product(turn, footprint.toBoard) : footprint.toBoard;
    return {
      toBoard: [a, b, c, d, e + number * pitch + place.x, f + place.y],
      over: a * d - b * c < 0,
    };
  });
}

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
