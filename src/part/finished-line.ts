import type { Segment } from '../curves/geometry/pieces/piece.ts';
import type { Point } from '../curves/geometry/point.ts';
import type { PartShape } from './part.ts';

/** The line to cut: the outline of a closed part, or the one line. */
export const finishedLine = (shape: PartShape): readonly Segment[] =>
  shape.type === 'closed' ? shape.outline : shape.line;

/** Straight from end to end of a line pattern; on a half, to its centre line. */
export const patternChord = (shape: PartShape): readonly [Point, Point] | undefined =>
  shape.type === 'closed' ? undefined : shape.chord;
