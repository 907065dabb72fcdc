import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { Footprint } from '../stock/footprint.ts';
import {
  type Copy,
  type CopyOrientation,
  type CopyPosition,
  mirrorColumn,
  placeCopy,
} from './copy-placement.ts';
import type { Separation } from './min-separation.ts';
import { lowestStack, type Stack } from './stacking.ts';

/** In one orientation, every other copy in another, or all of one hand of a mirrored pair before the other. */
export type Arrangement = CopyOrientation | 'by-hand';

export interface NestingOptions {
  readonly quantity: number;
  readonly area: number;
  /** Whether the part differs from its mirror image; `mirrored`: half of the copies are mirror images. */
  readonly handed: boolean;
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
  /** Of rows pushed into each other, the rows and the most that one of them holds. */
  readonly across: number;
  readonly along: number;
  readonly interlocked?: true;
  /** On a full board. */
  readonly perBoard: number;
  readonly boards: number;
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

export interface ColumnSpacing {
  readonly along: number;
  /** How far the copies of a column may be shifted along the board, mm. */
  readonly slack: number;
}

export interface NestingLayout {
  readonly figures: NestingFigures & { readonly way: Arrangement };
  readonly count: number;
  readonly column: (index: number) => readonly CopyPosition[];
}

/** Columns one behind the other, each in its own share of the board's length. */
export function boxedColumns({ length }: Footprint, board: number, gap: number): ColumnSpacing {
  const along = Math.max(1, Math.floor((board + gap + JOIN_MM) / (length + gap)));
  return { along, slack: Math.max(0, (board + gap) / along - gap - length) };
}

/** Columns that are all alike, each in its own share of the board's length. */
export function columnLayout(
  way: CopyOrientation,
  columns: ColumnSpacing,
  context: NestingContext,
): NestingLayout {
  const stack = stackFor(way, columns, context);
  const { quantity } = context.options;
  const figures = nestingFigures(way, stack, columns, context);
  const { across } = figures;
  const even = stack.places(across);
  const odd = alternatesHands(context.options, across)
    ? mirrorColumn(even, way === 'over-end' ? 'along' : 'across')
    : even;
  return {
    figures,
    count: Math.ceil(quantity / across),
    column: (i) => (i % 2 === 0 ? even : odd).slice(0, quantity - i * across),
  };
}

const stackFor = (way: CopyOrientation, columns: ColumnSpacing, context: NestingContext): Stack =>
  lowestStack(way, context.separation, {
    slack: columns.slack,
    across: (stack) => copiesAcross(stack, columns, context),
  });

function copiesAcross(stack: Stack, { along }: ColumnSpacing, { footprint, options }: NestingContext) {
  const { width } = options.board;
  if (width === undefined) return Math.ceil(options.quantity / along);
  return stack.within(width - footprint.width + JOIN_MM);
}

/** For columns that are all alike. */
export function nestingFigures<T extends NestingFigures['way']>(
  way: T,
  stack: Stack,
  columns: ColumnSpacing,
  context: NestingContext,
): NestingFigures & { way: T } {
  const { footprint, options } = context;
  const across = copiesAcross(stack, columns, context);
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
    yield: yieldOf(perBoard, width, options),
  };
}

/** Share of a board that becomes parts; `width` (mm) stands for a board that is as wide as its copies need. */
export const yieldOf = (perBoard: number, width: number, { area, board }: NestingOptions): number =>
  (perBoard * area) / (board.length * (board.width ?? width));

/** The copies on a board, counted from 1: column after column, as many as are left for it. */
export function copiesOn(
  number: number,
  { figures: { along }, count, column }: NestingLayout,
  context: NestingContext,
): Copy[] {
  const first = (number - 1) * along;
  const columns = Array.from({ length: Math.max(0, Math.min(along, count - first)) }, (_, i) =>
    column(first + i),
  );
  const ends = columns.flat().map(({ x }) => x);
  const pitch = Math.max(...ends) + context.footprint.length + context.gap;
  return columns.flatMap((places, i) =>
    places.map((place) => placeCopy(context.footprint, { ...place, x: place.x + i * pitch })),
  );
}

/** With an odd number across, the other hand leads in every other column of mirrored copies. */
const alternatesHands = ({ handed, mirrored }: NestingOptions, across: number): boolean =>
  handed && mirrored && across % 2 === 1;
