import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { Footprint } from '../stock/footprint.ts';
import {
  type Copy,
  type CopyOrientation,
  type CopyPosition,
  columnHeight,
  mirrorColumn,
  placeCopy,
} from './copy-placement.ts';
import { cachedSeparation, type Separation } from './min-separation.ts';
import { mirroredColumns } from './mirrored-columns.ts';
import { lowestStack, type Stack } from './stacking.ts';

/** In one orientation, every other copy in another, or each hand of a mirrored pair in columns of its own. */
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
  readonly across: number;
  readonly along: number;
  /** On a full board; by hand, on one where every column holds one hand. */
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

interface ColumnSpacing {
  readonly along: number;
  /** How far the copies of a column may be shifted along the board, mm. */
  readonly slack: number;
  /** From one column to the next, mm; absent: each as long as its copies take, with the gap. */
  readonly pitch?: number;
}

export interface NestingLayout {
  readonly figures: NestingFigures & { readonly way: Arrangement };
  readonly count: number;
  readonly column: (index: number) => readonly CopyPosition[];
  readonly pitch?: number;
}

/** Columns one behind the other, each in its own share of the board's length. */
export function boxedColumns({ length }: Footprint, board: number, gap: number): ColumnSpacing {
  const along = Math.max(1, Math.floor((board + gap + JOIN_MM) / (length + gap)));
  return { along, slack: Math.max(0, (board + gap) / along - gap - length) };
}

/** Columns one behind the other and, on a board of a given width, pushed into each other. */
export function layoutsOf(way: CopyOrientation, boxed: ColumnSpacing, context: NestingContext) {
  const { footprint, options } = context;
  const first = layoutOf(way, stackFor(way, boxed, context), boxed, context);
  if (options.board.width === undefined) return [first];
  const straight = stackFor(way, { along: 1, slack: 0 }, context);
  const across = copiesAcross(straight, boxed, context);
  // Without the shift fewer may lie across: their own number decides whether columns are alike.
  if (alternatesHands(options, across)) return [first];
  const pitch = columnPitch(straight.places(across), context);
  const along = 1 + Math.floor((options.board.length - footprint.length + JOIN_MM) / pitch);
  return [first, layoutOf(way, straight, { along, slack: 0, pitch }, context)];
}

/** The least distance from a column to the next one like it. Rows repeat in pairs, so two of them stand for all. */
function columnPitch(rows: readonly CopyPosition[], { footprint, gap }: NestingContext): number {
  const separation = cachedSeparation(footprint, gap, 'along');
  const between = (p: CopyPosition, q: CopyPosition): number =>
    separation(p.orientation, q.orientation, q.y - p.y);
  const pitches = rows.slice(0, 2).flatMap((p) => {
    const near = rows.filter((q) => Math.abs(p.y - q.y) < footprint.width + gap + 1);
    return near.flatMap((q) => [between(p, q), between(q, p)]);
  });
  return Math.max(...pitches);
}

function layoutOf(
  way: CopyOrientation,
  stack: Stack,
  columns: ColumnSpacing,
  context: NestingContext,
): NestingLayout {
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
    ...(columns.pitch !== undefined && { pitch: columns.pitch }),
  };
}

/** Each hand in columns of its own. Boards are counted column by column; the figures are those of the first board. */
export function layoutByHandedness(boxed: ColumnSpacing, context: NestingContext): NestingLayout {
  const { footprint, options } = context;
  const stack = stackFor('turned', boxed, context);
  const full = nestingFigures('by-hand', stack, boxed, context);
  const room = (options.board.width ?? Number.POSITIVE_INFINITY) - footprint.width + JOIN_MM;
  const hands = { stack, separation: context.separation };
  const { count, column } = mirroredColumns(options.quantity, full.across, room, hands);
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
      yield: yieldOf(full.perBoard, width, options),
    },
    count,
    column,
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

const yieldOf = (perBoard: number, width: number, { area, board }: NestingOptions): number =>
  (perBoard * area) / (board.length * (board.width ?? width));

/** The copies on a board, counted from 1: column after column, as many as are left for it. */
export function copiesOn(
  number: number,
  { figures: { along }, count, column, ...layout }: NestingLayout,
  context: NestingContext,
): Copy[] {
  const first = (number - 1) * along;
  const columns = Array.from({ length: Math.max(0, Math.min(along, count - first)) }, (_, i) =>
    column(first + i),
  );
  const ends = columns.flat().map(({ x }) => x);
  const pitch = layout.pitch ?? Math.max(...ends) + context.footprint.length + context.gap;
  return columns.flatMap((places, i) =>
    places.map((place) => placeCopy(context.footprint, { ...place, x: place.x + i * pitch })),
  );
}

/** With an odd number across, the other hand leads in every other column of mirrored copies. */
const alternatesHands = ({ handed, mirrored }: NestingOptions, across: number): boolean =>
  handed && mirrored && across % 2 === 1;
