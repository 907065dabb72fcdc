import { firstOf, itemAt, lastOf, neighbors } from '../../units/checked.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { Curve } from '../curve.ts';
import { paramCurve } from '../geometry/evaluate.ts';
import { angleDifference, angleFrom, type Point, toPoint } from '../geometry/point.ts';
import { rootBetween } from '../numeric/roots-and-minima.ts';
import { maxCurvature, type Tooth, VISIBLE_MM, waveHeight } from './curvature-comb.ts';
import type { Remark } from './remark.ts';

function bentTeeth(sweep: readonly Tooth[], straight: number): Tooth[] {
  const least = Math.max(straight, 1e-9 * maxCurvature(sweep));
  return sweep.filter(({ curvature }) => Math.abs(curvature) > least);
}

/** The inflections that are seen: both stretches beside them bend by more than a pencil line. */
export function visibleInflections(sweep: readonly Tooth[], straight: number): Point[] {
  const stretches: Tooth[][] = [];
  for (const tooth of bentTeeth(sweep, straight)) {
    const last = stretches.at(-1);
    if (last && firstOf(last).curvature * tooth.curvature > 0) last.push(tooth);
    else stretches.push([tooth]);
  }
  const height = (teeth: readonly Tooth[]): number =>
    waveHeight(maxCurvature(teeth), 2 * (lastOf(teeth).along - firstOf(teeth).along));
  const seen = stretches.filter((teeth) => height(teeth) >= VISIBLE_MM);
  return seen.slice(1).flatMap((teeth, i) => {
    const [before, after] = [lastOf(itemAt(seen, i)), firstOf(teeth)];
    return before.curvature * after.curvature < 0 ? [inflectionBetween(before, after)] : [];
  });
}

/** Where the curvature changes sign. Values up to `straight` (1/mm) have no sign. */
export const combInflections = (sweep: readonly Tooth[], straight: number): Point[] =>
  neighbors(bentTeeth(sweep, straight)).flatMap(([before, after]) =>
    before.curvature * after.curvature < 0 ? [inflectionBetween(before, after)] : [],
  );

/** Inside a piece the root of its curvature; over a join or a straight stretch the start of the new side. */
function inflectionBetween(before: Tooth, after: Tooth): Point {
  if (before.piece !== after.piece) return toPoint(after);
  const at = paramCurve(after.piece);
  return toPoint(at(rootBetween((u) => at(u).curvature, before.u, after.u) ?? after.u));
}

/** A line that reverses once is an ogee, which the eye takes as one sweep; a line that reverses twice wavers or is meant to. */
const MAX_FAIR_INFLECTIONS = 1;

/** More than one inflection, or one without a change of side in the polygon through the points and the end tangents. */
export function inflectionRemark(
  sweep: readonly Tooth[],
  runs: readonly Curve[],
  found: readonly Point[],
): Remark[] {
  const unasked = found.length > requiredInflections(sweep, runs);
  if (!unasked && found.length <= MAX_FAIR_INFLECTIONS) return [];
  const asked = 'as its points require. Check that you want all of these';
  const why = unasked ? 'more often than its points require' : asked;
  const message = (mm: ShowLength): string =>
    `the curve reverses at ${found.map(({ x }) => mm(x)).join(', ')}, ${why}`;
  return [{ code: 'fairness.reverse', at: firstOf(found), message }];
}

/** A smaller change of direction, radians, is rounding. */
const SAME_DIRECTION = 1e-9;

function requiredInflections(sweep: readonly Tooth[], runs: readonly Curve[]): number {
  const directions = [...new Set(sweep.map(({ run }) => run))].flatMap((run) => {
    const { from, to, pins } = itemAt(runs, run);
    const teeth = sweep.filter((tooth) => tooth.run === run);
    const points = pins.length > 0 ? pins : [from, to];
    const chords = neighbors(points).map(([a, b]) => angleFrom(a, b));
    return [firstOf(teeth).angle, ...chords, lastOf(teeth).angle];
  });
  const sides = neighbors(directions)
    .map(([before, after]) => angleDifference(before, after))
    .filter((side) => Math.abs(side) > SAME_DIRECTION);
  return neighbors(sides).filter(([before, after]) => after * before < 0).length;
}
