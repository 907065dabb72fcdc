import type { Curve } from '../curves/curve.ts';
import type { Box } from '../curves/geometry/bounds.ts';
import type { Piece, Segment } from '../curves/geometry/pieces/piece.ts';
import type { Point } from '../curves/geometry/point.ts';
import type { ApexName } from '../curves/measurements.ts';
import type { EndSide, Job } from '../job/job.ts';
import type { EdgeStep } from '../job/steps/step-kinds.ts';
import type { Warning } from '../units/fault.ts';
import type { PartEnd } from './ends/end-planes.ts';

/** A job worked out: the lines to cut, in the part's frame, mm. Plain data. */
export interface Part extends Omit<Job, 'part' | 'edges' | 'ends'> {
  /** As the job names it. */
  readonly name: string;
  /** In the order of the job: one edge makes a line pattern, two a closed part. */
  readonly edges: readonly [PartEdge] | readonly [PartEdge, PartEdge];
  /** What there is to cut: a line, a closed outline, or one half of it. */
  readonly shape: PartShape;
  /** The finished line exactly, in the order of the whole shape's path: what its parallels are taken from. */
  readonly exact: readonly Piece[];
  /** How the ends of a closed part are cut; absent for a line pattern. */
  readonly ends?: readonly [left: PartEnd, right: PartEnd];
  /** The line to saw to, contiguous; empty when there is no saw allowance. */
  readonly saw: readonly Segment[];
  /** Round the finished lines and the saw line. */
  readonly bounds: Box;
  /** What the maker should know before he cuts; none of it stops the work. */
  readonly warnings: readonly Warning[];
}

export interface PartEdge {
  readonly name: string;
  readonly key: string;
  readonly runs: readonly PartRun[];
  /** The exact pieces of all runs. */
  readonly pieces: readonly Piece[];
  /** The same as writers draw them. */
  readonly path: readonly Segment[];
  /** Along the curve, mm. */
  readonly length: number;
  /** What it is parallel to, and how far off, mm; absent where it is drawn. */
  readonly parallel?: { readonly to: string; readonly by: number };
  /** Above the lower of two edges (judged half-way along), and from a single edge towards the reference line. */
  readonly woodIsAbove: boolean;
}

/** A run of an edge; `step` is the step of the job that makes it, absent where the run is derived. */
export interface PartRun extends Curve {
  readonly step?: EdgeStep;
}

/** One edge makes a line on a board, two a closed part. Either, if it is symmetric, may be drawn as its left half. */
export type PartShape =
  | { readonly type: 'line'; readonly line: readonly Segment[]; readonly chord: readonly [Point, Point] }
  | {
      readonly type: 'closed';
      /** Counter-clockwise, contiguous and closed. */
      readonly outline: readonly Segment[];
      /** Between its tenons, where it has any. */
      readonly leastWidth: { readonly width: number; readonly at: Point };
      readonly tenons: readonly Tenon[];
    }
  | {
      readonly type: 'half';
      /** Contiguous and open: both its ends stand on the centre line, or the last one does. */
      readonly line: readonly Segment[];
      /** Half the chord, of a line pattern. */
      readonly chord?: readonly [Point, Point];
      /** Where each edge meets the centre line, in the order of the edges. */
      readonly middles: readonly Point[];
      /** The line to flip the pattern on, from below. */
      readonly centre: readonly [Point, Point];
    };

/** The stub of a closed part from a shoulder to its end. */
export interface Tenon {
  readonly side: EndSide;
  /** The station of its shoulder, the one nearer the end where its two are not level, mm. */
  readonly shoulder: number;
  readonly width: number;
  /** Half-way across there. */
  readonly at: Point;
}

/** A place on the part worth a label; a batten has nails, another curve pins. */
export interface Landmark {
  readonly what: ApexName | 'nail' | 'point' | 'join' | 'shoulder' | 'end';
  readonly at: Point;
  /** The other corner of a shoulder. */
  readonly to?: Point;
  readonly edge: string;
}
