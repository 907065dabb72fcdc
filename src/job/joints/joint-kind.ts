import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';
import type { OnSide } from './joint-side.ts';

export interface JointShape {
  /** Closed and contiguous, counter-clockwise. */
  readonly outline: readonly Segment[];
  readonly middle: Point;
  /** From a point to the joint, mm; below 0 inside. */
  readonly signedDistance: (at: Point) => number;
}

/** One line of a joint on its side, mm. The style `joint` is for what removes wood. */
export interface JointLine {
  readonly style: 'joint' | 'axis' | 'mark';
  readonly path: readonly Segment[];
  readonly closed?: boolean;
}

export interface JointFace {
  /** At a station from edge to edge, and a little past both. */
  readonly across: (station: number) => Segment;
  /** At an offset from end to end, and a little past both. */
  readonly along: (offset: number) => Segment;
}

/** Of a hole not square to the face: the angle (radians, over 0) and the side that it runs to. */
export type Lean = { readonly by: number; readonly toward: Toward };

/** To the left or right end, to where `out` grows (out) or to where it is 0 (in): the reference line or face. */
export type Toward = 'left' | 'right' | 'out' | 'in';

export interface JointView<Measures> {
  /** The station and the offset of its middle, mm; absent where it runs over the whole face. */
  place(joint: Measures): { readonly at?: number | undefined; readonly out?: number | undefined };
  /** Its size in words, besides its place: "2 × 3/8", "1 deep". */
  size?(joint: Measures & OnSide, show: ShowLength): readonly string[];
  lines(joint: Measures, face: JointFace): readonly JointLine[];
  /** Its lengths but its depth (mm), which its mirror image shares. */
  lengths?(joint: Measures): readonly number[];
  /** Its angles (radians), as they are (1) or as its mirror image has them (−1). */
  angles?(joint: Measures, side: 1 | -1): readonly number[];
  /** The wood that it removes, on the face or at a depth under it (mm). Absent: none. */
  shape?(joint: Measures, depth: number): JointShape;
  lean?(joint: Measures): Lean | undefined;
}

/** All that makes a kind of joint: one record in one file, and one line in joint-kinds.ts. */
export interface JointKind<Measures> extends JointView<Measures> {
  /** The names that the job file may give it, in the order that messages list them. */
  readonly keys: readonly string[];
  /** Its measures, or `undefined` once a fault is reported. Its label is read already. */
  read(mapping: YamlMapping, unit: Unit): Measures | undefined;
}
