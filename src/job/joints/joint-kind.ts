import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';

/** The wood that a joint takes out of the face. */
export interface JointShape {
  /** Closed and contiguous, counter-clockwise. */
  readonly outline: readonly Segment[];
  readonly middle: Point;
  /** From a point to the joint, mm; below 0 inside. */
  readonly signedDistance: (at: Point) => number;
}

/** One line of a joint on the face, mm on the part. What takes wood away has the style `joint`. */
export interface JointLine {
  readonly style: 'joint' | 'axis' | 'mark';
  readonly path: readonly Segment[];
  readonly closed?: boolean;
}

/** The lines over the whole face that a joint may ask for. */
export interface JointFace {
  /** From edge to edge at a station, and a little past both. */
  readonly across: (station: number) => Segment;
  /** From end to end at an offset, and a little past both. */
  readonly along: (offset: number) => Segment;
}

/** A hole off square to the face: the angle (radians, over 0) and the side that the hole runs to. */
export interface Lean {
  readonly by: number;
  readonly toward: Toward;
}

/** To the left or right end, away from the reference line (out) or towards it (in). */
export type Toward = 'left' | 'right' | 'out' | 'in';

/** What fairlath asks of a joint once it is read. */
export interface JointView<Measures> {
  /** The station and the offset of its middle, mm; absent where it runs over the whole face. */
  place(joint: Measures): { readonly at?: number | undefined; readonly out?: number | undefined };
  /** Its size in words, besides its place: "2 × 3/8", "1 deep". */
  size(joint: Measures, show: ShowLength): readonly string[];
  /** All that is drawn of it. */
  lines(joint: Measures, face: JointFace): readonly JointLine[];
  /** Its lengths (mm), which the mirror image of it shares; its depth is not one of them. */
  lengths(joint: Measures): readonly number[];
  /** Its angles (radians), as they are, or as the mirror image of the part has them (−1). */
  angles?(joint: Measures, side: 1 | -1): readonly number[];
  /** The wood that it takes, on the face or at a depth under it (mm). Absent: it takes none. */
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
