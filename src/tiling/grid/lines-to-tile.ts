import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { endStrips } from '../../part/ends/fold-tabs.ts';
import { landmarks } from '../../part/landmarks.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine, partLines } from '../../part/part-lines.ts';
import { edgeCheckDistances } from '../check-crosses.ts';
import type { CheckDistance } from '../layout.ts';
import { jointPoints, requiredSegments } from './required-content.ts';

/** Lines to print over sheets, mm, in a frame of their own. */
export interface LinesToTile {
  readonly all: readonly Segment[];
  /** Those that count for the least number of sheets. */
  readonly finished: readonly Segment[];
  /** Places that must be seen as well; they call for no sheet of their own. */
  readonly extraPoints: readonly Point[];
  /** Places that seams should keep away from. */
  readonly landmarks: readonly Point[];
  /** Distances to measure once all is taped, beside the diagonals. */
  readonly checks: readonly CheckDistance[];
  /** What tells these lines from others, besides their sheets: the pattern code is made of it. */
  readonly identity: readonly unknown[];
}

/** All of a part that is printed. */
export function linesToTile(part: Part): LinesToTile {
  const { name, shape, bounds, joints } = part;
  const toCut = linesToCut(part);
  // A half stops at its center line.
  const last = shape.type === 'half' ? shape.centre[0].x : bounds.right;
  const places = [...landmarks(part).map(({ at }) => at), ...jointPoints(part)];
  return {
    all: [...toCut, ...requiredSegments(part)],
    finished: finishedLine(shape),
    extraPoints: shape.type === 'half' ? shape.centre : [],
    landmarks: places.filter(({ x }) => x <= last),
    checks: edgeCheckDistances(part),
    identity: [name, toCut, ...(joints.length > 0 ? [joints] : []), ...endStrips(part).map(({ cut }) => cut)],
  };
}

export const linesToCut = (part: Part): Segment[] =>
  partLines(part, ['finished', 'saw']).flatMap(({ path }) => path);
