import { itemAt, neighbors } from '../../units/checked.ts';
import type { ShowLength } from '../../units/fault.ts';
import { showAngle } from '../../units/number-format.ts';
import type { Curve } from '../curve.ts';
import { isShoulder } from '../geometry/pieces/piece.ts';
import { angleDifference, type Point, toPoint } from '../geometry/point.ts';
import { curvatureComb, describeRadius, maxCurvature, type Tooth } from './curvature-comb.ts';
import { curvatureExtrema, flatAndLumpyRemarks, quickChangeRemark } from './curvature-extrema.ts';
import { combInflections, inflectionRemark, visibleInflections } from './inflections.ts';
import { judgePins } from './odd-point.ts';
import type { Remark } from './remark.ts';

/*
 * Fair, after Su & Liu, "Computational Geometry: Curve and Surface Modeling" (1989), as quoted by Agoston ("Computer
 * Graphics and Geometric Modeling", §11.12): tangent and curvature are continuous, inflections are meant, and the
 * curvature varies evenly. The limits here and in curvature-extrema.ts are our own, as shares of the edge; but the
 * corner's, and what is too small to be seen. A shoulder is meant: the edge is judged on either side of it. A nail only
 * puts a kink into the curvature.
 */

/** A turn of the tangent that counts as a corner, radians: 0.1° is 0.5 mm at 300 mm, more than a pencil line. */
const CORNER = (0.1 * Math.PI) / 180;
/** A visible jump of curvature, as a share of the largest curvature of the two runs that meet. */
const JUMP = 0.1;
/** Turning less than this over the whole edge, radians, is straight: 0.25 µm of rise per meter. */
const STRAIGHT = 1e-6;

interface PieceJoint {
  readonly at: Point;
  /** Of the tangent, radians, left positive. */
  readonly turn: number;
  /** Of the curvature, 1/mm. */
  readonly jump: number;
}

export interface Fairness {
  readonly comb: readonly Tooth[];
  readonly joins: readonly PieceJoint[];
  readonly inflections: readonly Point[];
  /** Where the curvature is greatest or least, its ends left out. */
  readonly extremes: readonly Tooth[];
  /** In the order of stations; or how fair the edge is: straight, fair, or fair as far as its pins tell. */
  readonly remarks: readonly Remark[];
  /** Where runs have four pins or more between their ends: the least bump that would show at any pin, and where. */
  readonly leastBump?: { readonly at: Point; readonly size: number };
}

/** How fair an edge is: its runs one after the other, each from where the last one ended. */
export function fairnessOf(runs: readonly Curve[]): Fairness {
  const comb = curvatureComb(runs);
  const meets = neighbors(comb).flatMap(([before, after], i) =>
    before.piece === after.piece ? [] : [{ before, after, index: i + 1 }],
  );
  const straight = STRAIGHT / (comb.at(-1)?.along ?? 1);
  const teethOfRuns = runs.map((_, run) => comb.filter((tooth) => tooth.run === run));
  const peaks = teethOfRuns.map(maxCurvature);
  const corners = meets.filter((meet) => Math.abs(jointAngle(meet)) > CORNER);
  const cuts = corners.map(({ index }) => index);
  const sweeps = [0, ...cuts].map((start, i) => comb.slice(start, cuts[i]));
  const seen = sweeps.map((sweep) => visibleInflections(sweep, straight));
  const meant = corners.filter(({ before, after }) => isShoulder(before.piece) || isShoulder(after.piece));
  const verdicts = runs.map(judgePins);
  const faults = [
    ...corners.flatMap((corner) => (meant.includes(corner) ? [] : [cornerRemark(corner)])),
    ...meets.flatMap((meet) => (corners.includes(meet) ? [] : jumpRemark(meet, peaks, straight))),
    ...teethOfRuns.flatMap((teeth) => quickChangeRemark(teeth, straight)),
    ...verdicts.flatMap((verdict) => verdict.remarks),
    ...sweeps.flatMap((sweep, i) => flatAndLumpyRemarks(sweep, straight, itemAt(seen, i))),
    ...sweeps.flatMap((sweep, i) => inflectionRemark(sweep, runs, itemAt(seen, i))),
  ];
  const joins = meets.map(({ before, after }): PieceJoint => {
    const jump = after.curvature - before.curvature;
    return { at: toPoint(after), turn: jointAngle({ before, after }), jump };
  });
  const inflections = sweeps.flatMap((sweep) => combInflections(sweep, straight));
  const fair = fairRemark(maxCurvature(comb) < straight, seen.flat().length, meant.length > 0);
  const doubts = verdicts.flatMap((verdict) => verdict.doubts);
  const remarks =
    faults.length > 0
      ? faults.sort((a, b) => (a.at?.x ?? 0) - (b.at?.x ?? 0))
      : doubts.length > 0
        ? doubts
        : [fair];
  const [blindest] = verdicts
    .flatMap((verdict) => verdict.blindest ?? [])
    .toSorted((a, b) => b.leastBump - a.leastBump);
  const leastBump = blindest && { at: blindest.at, size: blindest.leastBump };
  const extremes = sweeps.flatMap(curvatureExtrema);
  return { comb, joins, inflections, extremes, remarks, ...(leastBump && { leastBump }) };
}

type JointTeeth = Readonly<Record<'before' | 'after', Tooth>>;

const jointAngle = ({ before, after }: JointTeeth): number => angleDifference(before.angle, after.angle);

function cornerRemark(meet: JointTeeth): Remark {
  const at = toPoint(meet.after);
  const turn = showAngle(Math.abs(jointAngle(meet)));
  return { code: 'fairness.corner', at, message: (mm) => `corner of ${turn} at ${mm(at.x)}` };
}

function jumpRemark({ before, after }: JointTeeth, peaks: readonly number[], straight: number): Remark[] {
  const peak = Math.max(itemAt(peaks, before.run), itemAt(peaks, after.run), straight);
  if (Math.abs(after.curvature - before.curvature) <= JUMP * peak) return [];
  const [one, other] = [describeRadius(before, peak), describeRadius(after, peak)];
  const over = before.curvature * after.curvature < 0 ? ', bending the other way' : '';
  const message = (mm: ShowLength): string =>
    `hard spot at ${mm(after.x)}: the curve changes suddenly from ${one(mm)} to ${other(mm)}${over}`;
  return [{ code: 'fairness.hard-spot', at: toPoint(after), message }];
}

const REVERSES_ONCE = 'a smooth curve that reverses once, as its points require';

function fairRemark(straight: boolean, reverses: number, stepped: boolean): Remark {
  const within = stepped ? ' between its shoulders' : '';
  if (straight) return { code: 'fairness.straight', message: () => `straight${within}` };
  const how = reverses === 0 ? 'one smooth curve, no flat spot' : REVERSES_ONCE;
  return { code: 'fairness.fair', message: () => `fair${within}: ${how}` };
}
