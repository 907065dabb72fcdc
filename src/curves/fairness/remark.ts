import type { ShowLength } from '../../units/fault.ts';
import type { Point } from '../geometry/point.ts';

export type FairnessCode =
  | 'fairness.straight'
  | 'fairness.fair'
  | 'fairness.doubtful'
  | 'fairness.fair-so-far'
  | 'fairness.corner'
  | 'fairness.hard-spot'
  | 'fairness.flat-spot'
  | 'fairness.reverse'
  | 'fairness.lumpy'
  | 'fairness.odd-point';

export interface Remark {
  readonly code: FairnessCode;
  readonly at?: Point;
  readonly message: (length: ShowLength) => string;
}
