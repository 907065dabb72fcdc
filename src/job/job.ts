import type { Point } from '../curves/geometry/point.ts';
import type { Rule } from '../units/rule.ts';

/** A part as set out on the bench: what the maker wrote down, in millimetres. Plain data. */
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
  /** One edge: a line pattern. Two: a closed part. */
  readonly edges: readonly [Edge] | readonly [Edge, Edge];
  /** How a closed part is cut off at either end; square where it says nothing. */
  readonly ends?: { readonly [side in EndSide]?: EndSetting };
  /** On the marked face; empty where there are none. */
  readonly joints: readonly Joint[];
  /** How far outside the finished line to saw, mm; 0 for none. */
  readonly sawAllowance: number;
  /** How much wider than the part its blank is to be, mm. */
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
}

export type PairKind = 'identical' | 'mirrored';

export type EndSide = 'left' | 'right';

/**
 * The cut at an end, by the two angles of a saw or by the stance of a leg: radians, each between -π/2 and π/2.
 * Positive leans the cut towards the left end, away from the reference line (miter, rake) and towards the
 * marked face (bevel, splay): ends that lean alike are parallel.
 */
export type EndSetting =
  | { readonly by: 'square' }
  | { readonly by: 'miter'; readonly miter: number; readonly bevel: number }
  | { readonly by: 'stance'; readonly rake: number; readonly splay: number };

/** Something laid out on the marked face: stations from the reference end, offsets from the reference line. */
export type Joint = { readonly key: string; readonly label?: string } & (
  | ({ readonly kind: 'mortise' | 'slot' } & Recess)
  | {
      readonly kind: 'hole';
      readonly at: Point;
      readonly diameter: number;
      readonly depth?: number;
      readonly lean?: Lean;
    }
  /** Across the part at a station, or along it at an offset. */
  | { readonly kind: 'centre-line'; readonly line: { readonly at: number } | { readonly out: number } }
  /** Across the part at a station; a cross where an offset is given too. */
  | { readonly kind: 'mark'; readonly at: number; readonly out?: number; readonly label: string }
);

/** A mortise, or a slot with round ends: its middle, its size over all, how far it is turned (radians). */
export interface Recess {
  readonly at: Point;
  readonly length: number;
  readonly width: number;
  readonly turn: number;
  /** Absent: right through. */
  readonly depth?: number;
}

/** A hole off square to the face: by how much (radians, over 0) and to which side it runs as it goes in. */
export interface Lean {
  readonly by: number;
  readonly toward: Toward;
}

/** To the left or right end, away from the reference line (out) or towards it (in). */
export type Toward = 'left' | 'right' | 'out' | 'in';

export interface Edge {
  readonly name: string;
  readonly from: Point;
  readonly steps: readonly [EdgeStep, ...EdgeStep[]];
  /** The key of this edge in the job file ("edges.back"): where its faults are reported. */
  readonly key: string;
}

/** One stretch of an edge, from where the last one ended to `to`. */
export type EdgeStep = { readonly to: Point; readonly key: string } & (
  | { readonly kind: 'line' }
  | { readonly kind: 'arc'; readonly by: ArcInput }
  | {
      readonly kind: 'batten';
      readonly by: BattenInput;
      readonly ends: EndConditions;
      readonly strip?: TaperInput;
    }
  /** A rise is positive away from the reference line, as an arc's. */
  | { readonly kind: 'bow'; readonly rise: number }
  | { readonly kind: 'ellipse'; readonly rise: number }
  | { readonly kind: 'spline'; readonly through: readonly Point[]; readonly ends: EndConditions }
);

export type ArcInput =
  | { readonly through: Point }
  /** Positive: away from the reference line (to the left, going from start to end). */
  | { readonly rise: number }
  /** Positive: bulges as a positive rise does; the lesser arc. */
  | { readonly radius: number };

/** One nail or more between the ends, in order; or the apex the strip shall have over one nail. */
export type BattenInput = { readonly through: readonly [Point, ...Point[]] } | { readonly apex: Point };

/** How a strip's end is kept: sprung over a pin, or tangent to the neighbouring line. */
export type EndCondition = 'free' | 'held';
export type EndConditions = readonly [start: EndCondition, end: EndCondition];

/** A strip planed thinner from its start to its end: its thickness at both, mm. */
export interface TaperInput {
  readonly from: number;
  readonly to: number;
}
