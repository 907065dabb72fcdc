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
  /** All that the sheets must show. */
  readonly all: readonly Segment[];
  /** Those of them that count for the least number of sheets. */
  readonly finished: readonly Segment[];
  /** Places that must be seen as well; they call for no sheet of their own. */
  readonly extraPoints: readonly Point[];
  /** Places that seams should keep away from. */
  readonly landmarks: readonly Point[];
  /** Distances to measure once all is taped, beside the diagonals. */
  readonly checks: readonly CheckDistance[];
  /** What tells these lines from others, beside their sheets: it makes the code. */
  readonly identity: readonly unknown[];
}

/** All of a part that is printed. */
export const linesToTile = (part: Part): LinesToTile => ({
  all: [...linesToCut(part), ...requiredSegments(part)],
  finished: finishedLine(part.shape),
  extraPoints: extraPoints(part),
  landmarks: [...landmarks(part).map(({ at }) => at), ...jointPoints(part)].filter(
    ({ x }) => x <= lastDrawnStation(part),
  ),
  checks: edgeCheckDistances(part),
  identity: [
    part.name,
    linesToCut(part),
    ...(part.joints.length > 0 ? [part.joints] : []),
    ...tiltedEndCuts(part),
  ],
});

/** Ends that are tilted through the wood: their strips are part of the pattern. */
const tiltedEndCuts = (part: Part): unknown[] => endStrips(part).map(({ cut }) => cut);

/** The finished line and the saw line. */
export const linesToCut = (part: Part): Segment[] =>
  partLines(part, ['finished', 'saw']).flatMap(({ path }) => path);

/** The last station that is drawn: a half stops at its centre line. */
const lastDrawnStation = ({ shape, bounds }: Part): number =>
  shape.type === 'half' ? shape.centre[0].x : bounds.right;

/** What is drawn beside the lines to cut and must be seen as well: the line that a half is flipped on. */
const extraPoints = ({ shape }: Part): readonly Point[] => (shape.type === 'half' ? shape.centre : []);
