import { type Affine, isReflection, multiply, translate } from '../../curves/geometry/affine.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Footprint } from '../stock/footprint.ts';

/** As the part is, turned end for end on the same face, turned over lengthwise, or turned over end for end. */
export type CopyOrientation = 'same' | 'turned' | 'over' | 'over-end';

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

const FLIPS: Readonly<Record<CopyOrientation, readonly [x: 1 | -1, y: 1 | -1]>> = {
  same: [1, 1],
  turned: [-1, -1],
  over: [1, -1],
  'over-end': [-1, 1],
};

function orientationMatrix(orientation: CopyOrientation, { length, width }: Footprint): Affine {
  const [x, y] = FLIPS[orientation];
  return [x, 0, 0, y, x < 0 ? length : 0, y < 0 ? width : 0];
}

export const orientedPaths = (footprint: Footprint, orientation: CopyOrientation): Footprint['paths'] =>
  footprint.paths.map((path) => transformPath(path, orientationMatrix(orientation, footprint)));

export function placeCopy(footprint: Footprint, { x, y, orientation }: CopyPosition): Copy {
  const toBoard = translate(multiply(orientationMatrix(orientation, footprint), footprint.toBoard), x, y);
  return { toBoard, over: isReflection(toBoard) };
}

const MIRRORED_ORIENTATION: Record<'across' | 'along', Record<CopyOrientation, CopyOrientation>> = {
  across: { same: 'over', turned: 'over-end', over: 'same', 'over-end': 'turned' },
  along: { same: 'over-end', turned: 'over', over: 'turned', 'over-end': 'same' },
};

/** The column mirrored top to bottom or left to right, lowest copy first. */
export function mirrorColumn(column: readonly CopyPosition[], way: 'across' | 'along'): CopyPosition[] {
  const [length, height] = [Math.max(...column.map(({ x }) => x)), column.at(-1)?.y ?? 0];
  const mirrored = column.map(({ x, y, orientation }): CopyPosition => {
    const other = MIRRORED_ORIENTATION[way][orientation];
    return { x: way === 'along' ? length - x : x, y: way === 'along' ? y : height - y, orientation: other };
  });
  return way === 'along' ? mirrored : mirrored.reverse();
}

/** A copy's outline on the board. */
export const onBoard = ({ toBoard }: Copy, path: readonly Segment[]): Segment[] =>
  transformPath(path, toBoard);
