import type { Point } from '../curves/point.ts';
import type { Rule } from '../units/rule.ts';

/** A part as set out on the bench: what the maker wrote down, in millimetres. Plain data. */
export interface Job {
  readonly part: string;
  /** The unit the job is written in and the finest mark on the maker's rule. */
  readonly rule: Rule;
  readonly quantity: number;
  readonly stock?: Stock;
  /** One edge: a line pattern. Two: a closed part. */
  readonly edges: readonly [Edge] | readonly [Edge, Edge];
  /** How far outside the finished line to saw, mm; 0 for none. */
  readonly sawAllowance: number;
  readonly notes?: string;
}

export interface Stock {
  readonly species?: string;
  readonly length?: number;
  readonly width?: number;
  readonly thickness?: number;
  readonly layers: number;
}

export interface Edge {
  readonly name: string;
  readonly from: Point;
  readonly steps: readonly [Step, ...Step[]];
  /** The key of this edge in the job file ("edges.back"): where its faults are reported. */
  readonly key: string;
}

/** One stretch of an edge, from where the last one ended to `to`. */
export type Step = { readonly to: Point; readonly key: string } & (
  | { readonly kind: 'line' }
  | { readonly kind: 'arc'; readonly by: ArcBy }
  | { readonly kind: 'batten'; readonly by: BattenBy; readonly ends: EndPair; readonly strip?: Taper }
  /** A rise is positive away from the reference line, as an arc's. */
  | { readonly kind: 'bow'; readonly rise: number }
  | { readonly kind: 'ellipse'; readonly rise: number }
  | { readonly kind: 'spline'; readonly through: readonly Point[]; readonly ends: EndPair }
);

export type ArcBy =
  | { readonly through: Point }
  /** Positive: away from the reference line (to the left, going from start to end). */
  | { readonly rise: number }
  /** Positive: bulges as a positive rise does; the lesser arc. */
  | { readonly radius: number };

/** One nail or more between the ends, in order; or the apex the strip shall have over one nail. */
export type BattenBy = { readonly through: readonly [Point, ...Point[]] } | { readonly apex: Point };

/** How a strip's end is kept: sprung over a pin, or tangent to the neighbouring line. */
export type End = 'free' | 'held';
export type EndPair = readonly [start: End, end: End];

/** A strip planed thinner from its start to its end: its thickness at both, mm. */
export interface Taper {
  readonly from: number;
  readonly to: number;
}
