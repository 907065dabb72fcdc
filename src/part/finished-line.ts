import type { Segment } from '../curves/piece.ts';
import type { Shape } from './part.ts';

/** The line to cut: the outline of a closed part, or the one line. */
export const finishedLine = (shape: Shape): readonly Segment[] =>
  shape.type === 'closed' ? shape.outline : shape.line;
