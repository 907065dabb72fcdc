import type { ShowLength } from '../units/fault.ts';
import { along } from './along.ts';
import { combOf, type Tooth } from './comb.ts';
import type { Curve } from './curve.ts';
import { angleOf, type Point } from './point.ts';
import { rootBetween } from './search.ts';

/*
 * Fair, after Su & Liu, "Computational Geometry: Curve and Surface Modeling" (1989), as Agoston quotes
 * it ("Computer Graphics and Geometric Modeling", §11.12): (1) tangent and curvature run on without a
 * break, (2) there is no inflection but where it is meant, (3) the curvature varies evenly, in few
 * stretches of one trend. They leave open how much is too much; the limits below are our own. All but
 * the corner's are shares of the edge itself, so that a small part is judged as a large one.
 *
 * A nail of a strip puts a kink into the curvature but no break, and a free end has none: both are fair.
 */

/**
 * A turn of the tangent that counts as a corner, radians: 0.1°, which 300 mm away is 0.5 mm, more
 * than the width of a pencil line.
 */
const CORNER = (0.1 * Math.PI) / 180;
/** A jump of curvature that shows, as a share of the sharpest curvature of the two runs that meet. */
const JUMP = 0.1;
/**
 * A hard spot: the curvature changes by half its run's sharpest within a twentieth of the run. A strip
 * over one nail in the middle changes by a tenth there; it takes a nail a tenth from the end to do this.
 */
const [QUICK_CHANGE, QUICK_SHARE] = [0.5, 1 / 20];
/**
 * A flat spot: between two swells to the same side the curvature falls below a quarter of its mean
 * there. Half an ellipse falls to that in the middle when its rise is a sixth of its chord.
 */
const FLAT = 0.25;
/**
 * A dip that counts as one: to below half the lesser swell beside it. Two of them are lumpy. (A free
 * strip over nails on a circle slackens by a third beside its outer nails, and is fair.)
 */
const [DIP, MOST_DIPS] = [0.5, 1];
/** A rise or fall of curvature smaller than this share of the sharpest is no trend: the eye misses it. */
const RIPPLE = 0.05;
/** Turning less than this over the whole edge, radians, is straight: 0.25 µm of rise on a metre. */
const STRAIGHT = 1e-6;

/** Where two pieces of the edge meet. */
export interface Join {
  readonly at: Point;
  /** How far the tangent turns at once, radians, left positive. */
  readonly turn: number;
  /** How much the curvature changes at once, 1/mm. */
  readonly jump: number;
}

export type FairnessCode =
  | 'fairness.straight'
  | 'fairness.fair'
  | 'fairness.corner'
  | 'fairness.hard-spot'
  | 'fairness.flat-spot'
  | 'fairness.reverse'
  | 'fairness.lumpy';

/** One thing to say of an edge, in plain words. */
export interface Remark {
  readonly code: FairnessCode;
  readonly at?: Point;
  readonly message: (length: ShowLength) => string;
}

export interface Fairness {
  /** The curvature along the whole edge, to draw as a comb. */
  readonly comb: readonly Tooth[];
  readonly joins: readonly Join[];
  /** Where the edge changes from turning left to turning right or back. */
  readonly inflections: readonly Point[];
  /** Where the curvature is greatest or least, ends apart; they part its stretches of one trend. */
  readonly extremes: readonly Tooth[];
  /** What is not fair, along the edge; or the one remark that it is fair, or straight. */
  readonly remarks: readonly Remark[];
}

/** How fair an edge is: its runs one after the other, each from where the last one ended. */
export function fairnessOf(runs: readonly Curve[]): Fairness {
  const comb = combOf(runs);
  const meets = comb.flatMap((after, i) =>
    i > 0 && comb[i - 1]!.piece !== after.piece ? [{ before: comb[i - 1]!, after, index: i }] : [],
  );
  const straight = STRAIGHT / (comb.at(-1)?.along ?? 1);
  const peaks = runs.map((_, run) => peakOf(comb.filter((tooth) => tooth.run === run)));
  const corners = meets.filter((meet) => Math.abs(turnAt(meet)) > CORNER);
  const sweeps = partedAt(
    comb,
    corners.map(({ index }) => index),
  );
  const inflections = sweeps.map((sweep) => inflectionsOf(sweep, straight));
  const faults = [
    ...corners.map(cornerRemark),
    ...meets.flatMap((meet) => (corners.includes(meet) ? [] : jumpRemark(meet, peaks, straight))),
    ...runs.flatMap((_, run) =>
      quickRemark(
        comb.filter((t) => t.run === run),
        straight,
      ),
    ),
    ...sweeps.flatMap((sweep) => swellRemarks(sweep, straight)),
    ...sweeps.flatMap((sweep, i) => reverseRemark(sweep, runs, inflections[i]!)),
  ];
  return {
    comb,
    joins: meets.map((meet) => ({
      at: pick(meet.after),
      turn: turnAt(meet),
      jump: meet.after.curvature - meet.before.curvature,
    })),
    inflections: inflections.flat(),
    extremes: sweeps.flatMap(extremesOf),
    remarks:
      faults.length > 0
        ? faults.sort((a, b) => (a.at?.x ?? 0) - (b.at?.x ?? 0))
        : [fairRemark(peakOf(comb) < straight, inflections.flat().length)],
  };
}

interface Meet {
  readonly before: Tooth;
  readonly after: Tooth;
  readonly index: number;
}

const pick = ({ x, y }: Point): Point => ({ x, y });
const peakOf = (teeth: readonly Tooth[]): number =>
  teeth.reduce((peak, { curvature }) => Math.max(peak, Math.abs(curvature)), 0);

/** From one direction to the next, radians in (−π, π]. */
const turn = (from: number, to: number): number => Math.atan2(Math.sin(to - from), Math.cos(to - from));
const turnAt = ({ before, after }: Meet): number => turn(before.angle, after.angle);

function partedAt(comb: readonly Tooth[], cuts: readonly number[]): Tooth[][] {
  return [0, ...cuts].map((start, i) => comb.slice(start, cuts[i] ?? comb.length));
}

const sidesOf = (sweep: readonly Tooth[], straight: number): Tooth[] =>
  sweep.filter(({ curvature }) => Math.abs(curvature) > Math.max(straight, 1e-9 * peakOf(sweep)));

function inflectionsOf(sweep: readonly Tooth[], straight: number): Point[] {
  const bent = sidesOf(sweep, straight);
  return bent.flatMap((tooth, i) => {
    const before = bent[i - 1];
    return before && before.curvature * tooth.curvature < 0 ? [crossing(before, tooth)] : [];
  });
}

/** Inside a piece the root of its curvature; over a join or a straight stretch where the new side starts. */
function crossing(before: Tooth, after: Tooth): Point {
  if (before.piece !== after.piece) return pick(after);
  const at = along(after.piece);
  return pick(at(rootBetween((u) => at(u).curvature, before.u, after.u) ?? after.u));
}

/** The turning points of the curvature that stand out by more than a ripple. */
function extremesOf(sweep: readonly Tooth[]): Tooth[] {
  const ripple = RIPPLE * peakOf(sweep);
  const found: Tooth[] = [];
  let [low, high] = [sweep[0]!, sweep[0]!];
  let trend = 0;
  for (const tooth of sweep) {
    if (tooth.curvature > high.curvature) high = tooth;
    if (tooth.curvature < low.curvature) low = tooth;
    if (trend >= 0 && high.curvature - tooth.curvature > ripple) {
      if (trend > 0) found.push(high);
      [trend, low] = [-1, tooth];
      high = tooth;
    } else if (trend <= 0 && tooth.curvature - low.curvature > ripple) {
      if (trend < 0) found.push(low);
      [trend, high] = [1, tooth];
      low = tooth;
    }
  }
  return found;
}

function cornerRemark(meet: Meet): Remark {
  const at = pick(meet.after);
  const degrees = ((Math.abs(turnAt(meet)) * 180) / Math.PI).toFixed(1);
  return { code: 'fairness.corner', at, message: (mm) => `corner of ${degrees}° at ${mm(at.x)}` };
}

/** "straight", or the radius; for places as sharp as a share of `peak` and up. */
const bend =
  (tooth: Tooth, peak: number) =>
  (mm: ShowLength): string =>
    Math.abs(tooth.curvature) > RIPPLE * peak
      ? `a radius of ${mm(1 / Math.abs(tooth.curvature))}`
      : 'straight';

function jumpRemark({ before, after }: Meet, peaks: readonly number[], straight: number): Remark[] {
  const peak = Math.max(peaks[before.run]!, peaks[after.run]!, straight);
  if (Math.abs(after.curvature - before.curvature) <= JUMP * peak) return [];
  const [one, other] = [bend(before, peak), bend(after, peak)];
  const over = before.curvature * after.curvature < 0 ? ', turning the other way' : '';
  const message = (mm: ShowLength): string =>
    `hard spot at ${mm(after.x)}: ${one(mm)} on one side, ${other(mm)} on the other${over}`;
  return [{ code: 'fairness.hard-spot', at: pick(after), message }];
}

/** The quickest change inside a run, where it is too quick; joins speak for themselves. */
function quickRemark(teeth: readonly Tooth[], straight: number): Remark[] {
  const peak = peakOf(teeth);
  const reach = (teeth.at(-1)!.along - teeth[0]!.along) * QUICK_SHARE;
  if (peak < straight) return [];
  let worst: { one: Tooth; other: Tooth; change: number } | undefined;
  let start = 0;
  for (const other of teeth) {
    while (teeth[start]!.along < other.along - reach) start++;
    for (let i = start; teeth[i] !== other; i++) {
      const one = teeth[i]!;
      const change = Math.abs(other.curvature - one.curvature) / peak;
      if (change > (worst?.change ?? QUICK_CHANGE)) worst = { one, other, change };
    }
  }
  if (!worst) return [];
  const { one, other } = worst;
  const sharper = Math.abs(one.curvature) > Math.abs(other.curvature) ? one : other;
  const [first, second] = [bend(one, peak), bend(other, peak)];
  const message = (mm: ShowLength): string =>
    `hard spot at ${mm(sharper.x)}: from ${first(mm)} to ${second(mm)} within ${mm(other.along - one.along)}`;
  return [{ code: 'fairness.hard-spot', at: pick(sharper), message }];
}

/** Swells to one side with slack between them: flat spots, or a lumpy line. */
function swellRemarks(sweep: readonly Tooth[], straight: number): Remark[] {
  if (peakOf(sweep) < straight) return [];
  const dips = dipsOf(sweep);
  const flats = dips.filter(({ flat }) => flat);
  const remarks = flats.map(({ at }): Remark => {
    const message = (mm: ShowLength): string =>
      `flat spot at ${mm(at.x)}: the curve slackens between two swells`;
    return { code: 'fairness.flat-spot', at: pick(at), message };
  });
  if (dips.length <= MOST_DIPS) return remarks;
  const { at } = dips[0]!;
  const message = (mm: ShowLength): string =>
    `lumpy from ${mm(at.x)} on: the curve swells and slackens ${dips.length} times`;
  return [...remarks, { code: 'fairness.lumpy', at: pick(at), message }];
}

interface Dip {
  readonly at: Tooth;
  readonly flat: boolean;
}

/** Least places of |curvature| between two swells to the same side. */
function dipsOf(sweep: readonly Tooth[]): Dip[] {
  const turns = [sweep[0]!, ...extremesOf(sweep), sweep.at(-1)!];
  return turns.slice(1, -1).flatMap((at, i) => {
    const [before, after] = [turns[i]!, turns[i + 2]!];
    const lesser = Math.min(Math.abs(before.curvature), Math.abs(after.curvature));
    const oneSided = before.curvature * after.curvature > 0 && at.curvature * before.curvature >= 0;
    if (!oneSided || Math.abs(at.curvature) >= DIP * lesser) return [];
    const mean = meanCurvature(sweep.slice(sweep.indexOf(before), sweep.indexOf(after) + 1));
    return [{ at, flat: Math.abs(at.curvature) < FLAT * Math.abs(mean) }];
  });
}

function meanCurvature(teeth: readonly Tooth[]): number {
  const turned = teeth.slice(1).map((tooth, i) => {
    const before = teeth[i]!;
    return ((before.curvature + tooth.curvature) / 2) * (tooth.along - before.along);
  });
  return turned.reduce((sum, part) => sum + part, 0) / (teeth.at(-1)!.along - teeth[0]!.along);
}

/**
 * More reverses than the points ask for. They ask for one wherever the line from point to point changes
 * its turning side, the tangents at the ends of each run included.
 */
function reverseRemark(sweep: readonly Tooth[], runs: readonly Curve[], found: readonly Point[]): Remark[] {
  if (found.length <= reversesAsked(sweep, runs)) return [];
  const message = (mm: ShowLength): string =>
    `the curve reverses at ${found.map(({ x }) => mm(x)).join(', ')}, more often than its points ask for`;
  return [{ code: 'fairness.reverse', at: found[0]!, message }];
}

/** A change of direction below this, radians, is rounding and takes no side. */
const SAME_DIRECTION = 1e-9;

function reversesAsked(sweep: readonly Tooth[], runs: readonly Curve[]): number {
  const directions = [...new Set(sweep.map(({ run }) => run))].flatMap((run) => {
    const { from, to, pins } = runs[run]!;
    const teeth = sweep.filter((tooth) => tooth.run === run);
    const points = pins.length > 0 ? pins : [from, to];
    const chords = points.slice(1).map((p, i) => angleOf(points[i]!, p));
    return [teeth[0]!.angle, ...chords, teeth.at(-1)!.angle];
  });
  const sides = directions
    .slice(1)
    .map((angle, i) => turn(directions[i]!, angle))
    .filter((side) => Math.abs(side) > SAME_DIRECTION);
  return sides.filter((side, i) => i > 0 && side * sides[i - 1]! < 0).length;
}

function fairRemark(straight: boolean, reverses: number): Remark {
  if (straight) return { code: 'fairness.straight', message: () => 'straight' };
  const times = ['', 'once', 'twice'][reverses] ?? `${reverses} times`;
  const words =
    reverses === 0
      ? 'fair: one smooth curve, no flat spot'
      : `fair: a smooth curve that reverses ${times}, as its points ask for`;
  return { code: 'fairness.fair', message: () => words };
}
