import type { Segment } from '../curves/piece.ts';
import { type Matrix, mapSegment } from '../curves/segment.ts';
import type { Footprint } from './footprint.ts';

/** How one copy lies: as it is, turned end for end on the same face, turned over lengthwise or end for end. */
export type Lie = 'same' | 'turned' | 'over' | 'over-end';

/** The lower left corner of a copy on the board, mm, and how it lies. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly lie: Lie;
}

/** One copy on the board. */
export interface Copy {
  /** From the part's frame to the board's: x along it from its lower left corner, y across. Keeps shapes. */
  readonly toBoard: Matrix;
  /** Whether it lies turned over: the pattern's back is up. */
  readonly over: boolean;
}

/** A copy's own turn within its length and width. */
function turnOf(lie: Lie, { length, width }: Pick<Footprint, 'length' | 'width'>): Matrix {
  switch (lie) {
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

/** The outline of a copy that lies so. */
export const lyingPaths = (footprint: Footprint, lie: Lie): Footprint['paths'] =>
  footprint.paths.map((path) => path.map((segment) => mapSegment(segment, turnOf(lie, footprint))));

export function copyAt(footprint: Footprint, { x, y, lie }: Place): Copy {
  const [a, b, c, d, e, f] = product(turnOf(lie, footprint), footprint.toBoard);
  return { toBoard: [a, b, c, d, e + x, f + y], over: a * d - b * c < 0 };
}

/** First the inner matrix, then the outer one. */
function product([a, b, c, d, e, f]: Matrix, [p, q, r, s, t, u]: Matrix): Matrix {
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f];
}

/** A copy's outline on the board. */
export const onBoard = ({ toBoard }: Copy, path: readonly Segment[]): Segment[] =>
  path.map((segment) => mapSegment(segment, toBoard));
