import type { Point } from '../curves/geometry/point.ts';
import type { Rule } from '../units/rule.ts';
import type { Joint } from './joints/joint-kinds.ts';
import type { EdgeStep } from './steps/step-kinds.ts';

/** A part as the maker wrote it down, in millimeters. Plain data. */
export interface Job {
  /** Its name. */
  readonly part: string;
  /** The unit the job is written in and the finest mark on the maker's rule. */
  readonly rule: Rule;
  /** How many parts to make, both hands of a pair counted. */
  readonly quantity: number;
  /** Whether the parts are all alike, or one half of them the mirror image of the other. */
  readonly pair?: PairKind;
  /** The wood it is made of, as far as it is told. */
  readonly stock?: Stock;
  /** Bent from plies over a form, not sawn; absent where it is sawn. */
  readonly laminate?: Laminate;
  /** One edge: a line pattern. Two: a closed part. */
  readonly edges: readonly [Edge] | readonly [Edge, Edge];
  /** How a leg stands on the floor; its ends are then cut level with it. */
  readonly stands?: Stands;
  /** How a closed part is cut off at either end; square where it says nothing. */
  readonly ends?: { readonly [side in EndSide]?: EndSetting };
  /** On the faces and the edges; empty where there are none. */
  readonly joints: readonly Joint[];
  /** How far outside the finished line to saw, mm; 0 for none. */
  readonly sawAllowance: number;
  /** How much wider than the part its blank is to be, or its plies, mm. */
  readonly widthAllowance?: number;
  /** The maker’s own words. */
  readonly notes?: string;
}

export interface Stock {
  readonly species?: string;
  readonly length?: number;
  readonly width?: number;
  readonly thickness?: number;
  readonly layers: number;
  /** The grain on the part, radians counterclockwise from the reference line; 0 where the job does not say. */
  readonly grain?: number;
}

/** The side of the curve that the form is on. */
export type FormSide = 'below' | 'above';

export interface Laminate {
  readonly plies?: number;
  /** The thickness of each, mm. */
  readonly ply?: number;
  /** The inside of the bend where absent. */
  readonly form?: FormSide;
  /** The rise that a trial piece lost off its form, mm; computed where absent. */
  readonly springback?: number;
}

export type PairKind = 'identical' | 'mirrored';

export type EndSide = 'left' | 'right';

export type Face = 'reference-face' | 'other-face';

/** How far the foot of a leg is out, radians from plumb. */
export interface Stands {
  /** The end on the floor. */
  readonly foot: EndSide;
  /** Towards an edge, seen looking square at the reference face. */
  readonly towardsEdge?: { readonly edge: string; readonly by: number };
  /** Towards a face, seen looking square at an edge. */
  readonly towardsFace?: { readonly face: Face; readonly by: number };
  /** Whether the leg is not twisted about its length, or its reference face stays level across. */
  readonly twist: 'none' | 'level-across';
}

/**
 * The cut at an end, by the two angles of a saw or of a leg's stance: radians between -π/2 and π/2. Positive leans
 * the cut toward the left end, going away from the reference line (miter, rake) and to the reference face (bevel, splay).
 */
export type EndAngles =
  | { readonly by: 'square' }
  | { readonly by: 'miter'; readonly miter: number; readonly bevel: number }
  | { readonly by: 'stance'; readonly rake: number; readonly splay: number };

/** Of a part with a parallel edge also square to the curve, or level: parallel to the reference line. */
export type EndSetting = EndAngles | { readonly by: 'curve' } | { readonly by: 'level' };

export type Edge = DrawnEdge | ParallelEdge;

interface NamedEdge {
  readonly name: string;
  /** In the job file ("edges.back"): mistakes of this edge are reported there. */
  readonly key: string;
}

export interface DrawnEdge extends NamedEdge {
  readonly from: Point;
  readonly steps: readonly [EdgeStep, ...EdgeStep[]];
}

/** At the same distance from the other edge everywhere. */
export interface ParallelEdge extends NamedEdge {
  /** The name of the edge that it is parallel to. */
  readonly parallel: string;
  /** Square to the curve, mm, positive on the side on which offsets grow. */
  readonly by: number;
}

export const isParallelEdge = (edge: Edge): edge is ParallelEdge => 'parallel' in edge;
