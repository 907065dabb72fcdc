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
  lie: CopyOrientation,
  { length, width }: Pick<Footprint, 'length' | 'width'>,
): Affine {
  switch (lie) {
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

export const orientedPaths = (footprint: Footprint, lie: CopyOrientation): Footprint['paths'] =>
  footprint.paths.map((path) => transformPath(path, orientationMatrix(lie, footprint)));

export function placeCopy(footprint: Footprint, { x, y, orientation }: CopyPosition): Copy {
  const toBoard = translate(multiply(orientationMatrix(orientation, footprint), footprint.toBoard), x, y);
  return { toBoard, over: isReflection(toBoard) };
}

/** A copy's outline on the board. */
export const onBoard = ({ toBoard }: Copy, path: readonly Segment[]): Segment[] =>
  transformPath(path, toBoard);
