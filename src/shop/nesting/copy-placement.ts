import { type Affine, IDENTITY, isReflection, multiply, translate } from '../../curves/geometry/affine.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Footprint } from '../stock/footprint.ts';

/** As the part is, turned end for end on the same face, turned over lengthwise, or turned over end for end. */
export type CopyOrientation = 'same' | 'turned' | 'over' | 'over-end';

/** The lower left corner of a copy on the board, mm. */
export interface CopyPosition {
  readonly x: number;
  readonly y: number;
  readonly orientation: CopyOrientation;
}

/** One copy on the board. */
export interface Copy {
  /** From the part's frame to the board's: x along the board from its lower left corner, y across. Keeps shapes. */
  readonly toBoard: Affine;
  /** Whether the copy lies turned over: the pattern's back is up. */
  readonly over: boolean;
}

function orientationMatrix(
  orientation: CopyOrientation,
  { length, width }: Pick<Footprint, 'length' | 'width'>,
): Affine {
  switch (orientation) {
    case 'same':
      return IDENTITY;
    case 'turned':
      return [-1, 0, 0, -1, length, width];
    case 'over':
      return [1, 0, 0, -1, 0, width];
    case 'over-end':
      return [-1, 0, 0, 1, length, 0];
  }
}

export const orientedPaths = (footprint: Footprint, orientation: CopyOrientation): Footprint['paths'] =>
  footprint.paths.map((path) => transformPath(path, orientationMatrix(orientation, footprint)));

export function placeCopy(footprint: Footprint, { x, y, orientation }: CopyPosition): Copy {
  const toBoard = translate(multiply(orientationMatrix(orientation, footprint), footprint.toBoard), x, y);
  return { toBoard, over: isReflection(toBoard) };
}

const MIRRORED_ORIENTATION: Readonly<
  Record<'across' | 'along', Readonly<Record<CopyOrientation, CopyOrientation>>>
> = {
  across: { same: 'over', turned: 'over-end', over: 'same', 'over-end': 'turned' },
  along: { same: 'over-end', turned: 'over', over: 'turned', 'over-end': 'same' },
};

export const columnHeight = (column: readonly CopyPosition[]): number => column.at(-1)?.y ?? 0;

/** The column mirrored top to bottom or left to right, lowest copy first. */
export function mirrorColumn(column: readonly CopyPosition[], way: 'across' | 'along'): CopyPosition[] {
  const [length, height] = [Math.max(...column.map(({ x }) => x)), columnHeight(column)];
  const mirrored = column.map(({ x, y, orientation }): CopyPosition => {
    const other = MIRRORED_ORIENTATION[way][orientation];
    return way === 'along'
      ? { x: length - x, y, orientation: other }
      : { x, y: height - y, orientation: other };
  });
  return way === 'along' ? mirrored : mirrored.reverse();
}

/** A copy's outline on the board. */
export const onBoard = ({ toBoard }: Copy, path: readonly Segment[]): Segment[] =>
  transformPath(path, toBoard);
