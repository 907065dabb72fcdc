import type { Curve } from '../curve.ts';
import { batten } from '../elastica/batten.ts';
import { bow } from '../elastica/bow.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import { pieceEnd } from '../geometry/evaluate.ts';
import type { Point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { apexOf } from '../measurements.ts';
import { arc } from '../simple/arc.ts';
import { spline } from '../simple/spline.ts';
import { undefinedOnFault } from '../try-curve.ts';
import { HeightFunction } from './height-over-chord.ts';
import { maxGap } from './max-gap.ts';

/** The kinds that a maker would weigh against each other for one bend. The batten is uniform, free, over one nail. */
export const COMPARED_KINDS = ['arc', 'batten', 'bow', 'spline'] as const;
export type ComparedKind = (typeof COMPARED_KINDS)[number];

/** How far another kind of curve is from a run, square off their chord. */
export interface CurveComparison {
  readonly kind: ComparedKind;
  readonly curve: Curve;
  readonly worst: number;
  /** The point on the run where it is; its x is the station. */
  readonly at: Point;
  /** Whether the other kind has the run's own apex; arc and bow always have theirs in the middle. */
  readonly sameApex: boolean;
}

/** Apexes closer than this share of the chord are the same: 0.1 mm per meter. */
const SAME_APEX = 1e-4;

/** Other kinds with the run's ends and rise. Batten and spline get its apex, too; an arc and a bow cannot. */
export function liesApart(run: Curve): CurveComparison[] {
  const { from, to } = run;
  const apex = apexOf(run.exact, from, to);
  if (!apex) return [];
  const frame = new ChordFrame(from, to);
  const inMiddle = Math.abs(frame.station(apex.at) / frame.length - 0.5) < SAME_APEX;
  const profile = new HeightFunction(run);
  return COMPARED_KINDS.flatMap((kind) => {
    if (kind === 'batten' && isFreeOverOneNail(run)) return [];
    const other = undefinedOnFault(() => similarCurve(kind, frame, to, apex.at));
    const gap = other && maxGap(profile, new HeightFunction(other));
    if (!other || !gap || gap.worst <= JOIN_MM) return [];
    return [{ kind, curve: other, ...gap, sameApex: inMiddle || kind === 'batten' || kind === 'spline' }];
  });
}

/** Curvature at an end below this share of that at the nail is rounding. */
const NO_BEND = 1e-9;

/** Whether a run is the very batten it would be compared with: a search would find it again. */
function isFreeOverOneNail({ kind, exact }: Curve): boolean {
  const [first, second, ...more] = exact;
  if (kind !== 'batten' || first?.type !== 'elastica' || second?.type !== 'elastica' || more.length > 0)
    return false;
  const most = NO_BEND * Math.abs(second.curvature);
  return Math.abs(first.curvature) <= most && Math.abs(pieceEnd(second).curvature) <= most;
}

function similarCurve(kind: ComparedKind, frame: ChordFrame, to: Point, apex: Point): Curve | undefined {
  const { from } = frame;
  switch (kind) {
    case 'arc':
      return arc(from, to, { rise: frame.height(apex) });
    case 'bow':
      return bow(from, to, frame.height(apex));
    case 'batten':
      return batten(from, to, { apex });
    case 'spline':
      return splineByApex(frame, to, apex);
  }
}

/** A beam with its load a from the farther end, b from the nearer, has its apex √(a(a + 2b)/3) from the farther. */
function splineByApex(frame: ChordFrame, to: Point, apex: Point): Curve | undefined {
  const { from, length: chord, along: way } = frame;
  const station = frame.station(apex);
  const far = Math.max(station, chord - station);
  const short = Math.sqrt(chord ** 2 - 3 * far ** 2);
  const long = chord - short;
  if (!(short > 0)) return undefined;
  const height = (frame.height(apex) * 2 * long ** 2 * short) / (far * (chord ** 2 - short ** 2 - far ** 2));
  const x = station * 2 >= chord ? long : short;
  const through = { x: from.x + way.x * x - way.y * height, y: from.y + way.y * x + way.x * height };
  return spline([from, through, to], 'natural', 'natural');
}
