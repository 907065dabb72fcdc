import type { Curve } from '../../curves/curve.ts';
import type { StripEnds } from '../../curves/elastica/solve-strip.ts';
import type { Point } from '../../curves/geometry/point.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';
import type { Coordinate } from '../parse/read-points.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';
import type { QuickOptionReader } from '../quick/quick-options.ts';
import type { EndConditions } from './end-conditions.ts';

/** What a step needs besides its end point, and the points it passes on the way. */
export type StepReading<Fields> = { readonly fields: Fields; readonly points: readonly Coordinate[] };

/** A place that a person may drag, and the key of the job that holds it. */
export type StepHandle =
  | { readonly what: 'nail' | 'point' | 'apex'; readonly key: string; readonly at: Point }
  /** A length over the chord of the step (mm, signed), dragged at the apex. */
  | { readonly what: 'rise' | 'radius'; readonly key: string; readonly mm: number };

export type PointList = { readonly what: 'nail' | 'point'; readonly points: readonly Point[] };

export interface StepView<Fields> {
  run(from: Point, step: Fields & { readonly to: Point }, ends: StripEnds): Curve;
  /** Whether it gives the end of a held batten its direction. Battens yield and give none. */
  readonly isRigid?: boolean;
  ends?(step: Fields): EndConditions;
  handles?(step: Fields): readonly StepHandle[];
  /** Absent where the job gives no list of points. */
  pointList?(step: Fields): PointList | undefined;
  /** The curve in one plain sentence, for the cover. */
  sentence(step: Fields, run: Curve, show: ShowLength): string;
}

/** All that makes a kind of step: one record in one file, and one line in step-kinds.ts. */
export interface StepKind<Fields> extends StepView<Fields> {
  /** The names that the job file may give it besides its kind. */
  readonly keys: readonly string[];
  read(mapping: YamlMapping, unit: Unit): StepReading<Fields> | undefined;
  /** How a quick line gives it, with the options that it takes besides chord and rise; absent: not at all. */
  readonly quick?: {
    readonly options: readonly ('nail' | 'radius' | 'ends' | 'strip')[];
    read(options: QuickOptionReader, chord: number | undefined, unit: Unit): Fields | undefined;
  };
}

export const pointHandles = (what: 'nail' | 'point', points: readonly Point[]): StepHandle[] =>
  points.map((at, i) => ({ what, key: `through[${i}]`, at }));
