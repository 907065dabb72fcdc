import { angleFrom, distance, type Point } from '../curves/geometry/point.ts';
import { JOIN_MM } from '../curves/geometry/tolerance.ts';
import type { Figures } from '../curves/measurements.ts';
import { itemAt } from '../units/checked.ts';
import type { Grip } from './edit/draggable-points.ts';
import type { Part, PartEdge } from './part.ts';

export interface UnmarkedApex {
  readonly at: Point;
  /** Of the chord, radians. */
  readonly tilt: number;
  /** The line turns right on its way, its hollow below it. */
  readonly isRound: boolean;
  readonly edge: PartEdge;
}

/** Apexes without a grip, from the figures of every run: a nail off the middle is not the apex. */
export function unmarkedApexes(
  { edges }: Part,
  figures: readonly (readonly Figures[])[],
  grips: readonly Grip[],
): UnmarkedApex[] {
  const hasGrip = (at: Point): boolean => grips.some((grip) => distance(grip.at, at) < JOIN_MM);
  return edges.flatMap((edge, e) =>
    edge.runs.flatMap(({ from, to }, i) => {
      const { apex, endAngles } = itemAt(itemAt(figures, e), i);
      if (!apex || hasGrip(apex.at)) return [];
      return [{ at: apex.at, tilt: angleFrom(from, to), isRound: endAngles[0] > endAngles[1], edge }];
    }),
  );
}
