import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { Footprint } from '../stock/footprint.ts';
import { columnPitch } from './column-pitch.ts';
import {
  type Copy,
  type CopyOrientation,
  type CopyPosition,
  orientedPaths,
  placeCopy,
} from './copy-placement.ts';
import { columnHeight, mirroredColumns } from './mirrored-columns.ts';
import type { Separation } from './separation-cache.ts';
import { lowestStack, type Stack, type StackPlace } from './stacking.ts';

/**
 * All the same way, every other copy in another orientation, or each hand of a mirrored pair in columns of its own
 * (every other copy turned end for end).
 */
export type Arrangement = CopyOrientation | 'by-hand';

export interface NestingOptions {
  readonly quantity: number;
  /** Area of one finished part, mm². */
  readonly area: number;
  /** Whether the part differs from its mirror image; it may then not be turned over. */
  readonly handed: boolean;
  /** Whether half of the copies are mirror images. */
  readonly mirrored: boolean;
  /** The saw cut between two parts, mm; `between` is left beside the cut. */
  readonly kerf: number;
  readonly between: number;
  readonly board: {
    readonly length: number;
    /** Absent: as wide as all copies need. */
    readonly width?: number;
  };
}

export interface NestingFigures {
  readonly way: Arrangement | 'rectangles';
  /** From one copy to the next across the board, mm: the average over the copies on a board, two at least. */
  readonly pitch: number;
  readonly across: number;
  readonly along: number;
  /** On a full board; by hand, on one where every column holds one hand. */
  readonly perBoard: number;
  /** For the whole quantity. */
  readonly boards: number;
  /** The width of the board that the copies take, mm. */
  readonly width: number;
  /** Share of a full board that becomes parts. */
  readonly yield: number;
}

export interface NestingContext {
  readonly footprint: Footprint;
  readonly options: NestingOptions;
  readonly gap: number;
  readonly separation: Separation;
}

interface ColumnSpacing {
  readonly along: number;
  /** How far the copies of a column may be shifted along the board, mm. */
  readonly slack: number;
  /** From one column to the next, mm; absent: each as long as its copies take, with the gap. */
  readonly pitch?: number;
}

export interface NestingLayout {
  readonly figures: NestingFigures & { readonly way: Arrangement };
  /** Columns for the quantity. */
  readonly count: number;
  readonly column: (index: number) => readonly CopyPosition[];
  /** As in ColumnSpacing. */
  readonly pitch?: number;
}

/** Columns one behind the other, each in its own share of the board's length. */
export function boxedColumns({ length }: Footprint, board: number, gap: number): ColumnSpacing {
  const along = Math.max(1, Math.floor((board + gap + JOIN_MM) / (length + gap)));
  return { along, slack: Math.max(0, (board + gap) / along - gap - length) };
}

/** Columns one behind the other and, on a board of a given width, pushed into each other. */
export function layoutsOf(
  way: CopyOrientation,
  boxed: ColumnSpacing,
  ground: NestingContext,
): NestingLayout[] {
  const stack = stackFor(way, boxed, ground);
  const first = layoutOf(way, stack, boxed, ground);
  if (ground.options.board.width === undefined) return [first];
  const straight = stackFor(way, { along: 1, slack: 0 }, ground);
  const across = copiesAcross(straight, boxed, ground);
  // Without the shift fewer may lie across: their own number decides whether columns are alike.
  if (alternatesHands(ground.options, across)) return [first];
  const pitch = columnPitch(
    straight.places(across),
    [ground.footprint.paths, orientedPaths(ground.footprint, way)],
    ground,
  );
  const along = 1 + Math.floor((ground.options.board.length - ground.footprint.length + JOIN_MM) / pitch);
  return [first, layoutOf(way, straight, { along, slack: 0, pitch }, ground)];
}

function layoutOf(
  way: CopyOrientation,
  stack: Stack,
  columns: ColumnSpacing,
  ground: NestingContext,
): NestingLayout {
  const known = nestingFigures(way, stack, columns, ground);
  const column = stack.places(known.across);
  const both = [
    column,
    alternatesHands(ground.options, known.across) ? mirrorStack(column, way) : column,
  ].map((places) =>
    places.map(({ x, y, other }): CopyPosition => ({ x, y, orientation: other ? way : 'same' })),
  );
  const { quantity } = ground.options;
  return {
    figures: known,
    count: Math.ceil(quantity / known.across),
    column: (i) => both[i % 2]!.slice(0, quantity - i * known.across),
    ...(columns.pitch !== undefined && { pitch: columns.pitch }),
  };
}

const pitchAlong = (
  columns: readonly (readonly CopyPosition[])[],
  { footprint, gap }: NestingContext,
): number => Math.max(...columns.flat().map(({ x }) => x)) + footprint.length + gap;

/** Each hand in columns of its own: boards are counted column by column, and the figures are those of the first board. */
export function layoutByHandedness(boxed: ColumnSpacing, ground: NestingContext): NestingLayout {
  const { footprint, options } = ground;
  const stack = stackFor('turned', boxed, ground);
  const full = nestingFigures('by-hand', stack, boxed, ground);
  const { width: board = Number.POSITIVE_INFINITY } = options.board;
  const { count, column } = mirroredColumns(
    options.quantity,
    full.across,
    board - footprint.width + JOIN_MM,
    {
      stack,
      separation: ground.separation,
    },
  );
  const onFirst = Array.from({ length: Math.min(boxed.along, count) }, (_, i) => column(i));
  const steps = onFirst.reduce((sum, places) => sum + places.length - 1, 0);
  const heights = onFirst.map(columnHeight);
  const width = footprint.width + Math.max(...heights);
  return {
    figures: {
      ...full,
      ...(steps > 0 && { pitch: heights.reduce((a, b) => a + b) / steps }),
      boards: Math.ceil(count / boxed.along),
      width,
      yield: (full.perBoard * options.area) / (options.board.length * (options.board.width ?? width)),
    },
    count,
    column,
  };
}

function stackFor(way: CopyOrientation, columns: ColumnSpacing, ground: NestingContext): Stack {
  const lift =
    (below: CopyOrientation, above: CopyOrientation) =>
    (shift: number): number =>
      ground.separation(below, above, shift);
  return lowestStack(
    {
      same: lift('same', 'same'),
      otherSame: lift(way, way),
      toOther: lift('same', way),
      fromOther: lift(way, 'same'),
    },
    { alike: way === 'same', slack: columns.slack, across: (stack) => copiesAcross(stack, columns, ground) },
  );
}

function copiesAcross(
  stack: Stack,
  { along }: ColumnSpacing,
  { footprint, options }: NestingContext,
): number {
  const { width } = options.board;
  if (width === undefined) return Math.ceil(options.quantity / along);
  return stack.within(width - footprint.width + JOIN_MM);
}

/** The figures of one arrangement whose columns are all alike. */
export function nestingFigures<T extends NestingFigures['way']>(
  way: T,
  stack: Stack,
  columns: ColumnSpacing,
  ground: NestingContext,
): NestingFigures & { way: T } {
  const { footprint, options } = ground;
  const across = copiesAcross(stack, columns, ground);
  const width = footprint.width + stack.height(across);
  const perBoard = across * columns.along;
  const shown = Math.max(2, across);
  return {
    way,
    pitch: stack.height(shown) / (shown - 1),
    across,
    along: columns.along,
    perBoard,
    boards: Math.ceil(options.quantity / perBoard),
    width,
    yield: (perBoard * options.area) / (options.board.length * (options.board.width ?? width)),
  };
}

/** The copies on a board: column after column, as many as are left for it. */
export function copiesOn(
  number: number,
  { figures: { along }, count, column, ...layout }: NestingLayout,
  ground: NestingContext,
): Copy[] {
  const first = (number - 1) * along;
  const columns = Array.from({ length: Math.max(0, Math.min(along, count - first)) }, (_, i) =>
    column(first + i),
  );
  const pitch = layout.pitch ?? pitchAlong(columns, ground);
  return columns.flatMap((places, i) =>
    places.map((place) => placeCopy(ground.footprint, { ...place, x: place.x + i * pitch })),
  );
}

/** With an odd number across, the other hand leads in every other column of mirrored copies. */
const alternatesHands = ({ handed, mirrored }: NestingOptions, across: number): boolean =>
  handed && mirrored && across % 2 === 1;

function mirrorStack(column: readonly StackPlace[], way: CopyOrientation): StackPlace[] {
  const [length, height] = [Math.max(...column.map(({ x }) => x)), column.at(-1)!.y];
  return way === 'over-end'
    ? column.map(({ x, y, other }) => ({ x: length - x, y, other: !other }))
    : column.map(({ x, y, other }) => ({ x, y: height - y, other: !other })).reverse();
}
