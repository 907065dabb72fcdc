import { flatten } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { cross, type Point, toPoint } from '../../curves/geometry/point.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Footprint } from '../stock/footprint.ts';
import { type CopyOrientation, orientedPaths } from './copy-placement.ts';

/** Of an outline's chords, mm, added on both sides: copies are at most four times this farther apart than asked. */
export const OUTLINE_TOLERANCE_MM = FIT_MM;

interface RightwardChord {
  readonly left: Point;
  readonly right: Point;
}

/** The chords of an outline that face its neighbors across the board, from left to right. */
export interface Silhouette {
  readonly upper: readonly RightwardChord[];
  readonly lower: readonly RightwardChord[];
}

/** A chord this near to vertical has no slope in doubles, and its ends, which its neighbors share, stand for it. */
const VERTICAL_MM = 1e-9;

/** Of closed contiguous paths, either way round; they may overlap. */
export function silhouetteOf(paths: readonly (readonly Segment[])[]): Silhouette {
  const [upper, lower]: [RightwardChord[], RightwardChord[]] = [[], []];
  for (const path of paths) {
    const chords = flatten(path, OUTLINE_TOLERANCE_MM);
    const clockwise = chords.reduce((sum, { from, to }) => sum + cross(from, to), 0) < 0;
    for (const { from, to } of chords) {
      if (Math.abs(from.x - to.x) < VERTICAL_MM) continue;
      const forth = from.x < to.x;
      (forth === clockwise ? upper : lower).push({
        left: toPoint(forth ? from : to),
        right: toPoint(forth ? to : from),
      });
    }
  }
  const fromLeft = (a: RightwardChord, b: RightwardChord): number => a.left.x - b.left.x;
  return { upper: upper.sort(fromLeft), lower: lower.sort(fromLeft) };
}

/**
 * The lift, mm, that clears one figure of another when it is also shifted along; −∞ where the two pass each other. The
 * differences of two chords fill a parallelogram, whose lift is largest on its border, in closed form.
 */
export function minSeparation(below: Silhouette, above: Silhouette, shift: number, gap: number): number {
  const greatest = (step: number, lift: number): number =>
    greatestSeparation(below.upper, above.lower, shift, gap, step, lift);
  // A coarse pass first: near the final lift most pairs are rejected at once.
  return greatest(1, greatest(COARSE_STEP, Number.NEGATIVE_INFINITY));
}

/** Fewer chords find too low a first lift; more take as long as all. */
const COARSE_STEP = 8;

function greatestSeparation(
  upper: readonly RightwardChord[],
  lower: readonly RightwardChord[],
  shift: number,
  gap: number,
  step: number,
  leastLift: number,
): number {
  const reach = gap + 2 * OUTLINE_TOLERANCE_MM;
  let lift = leastLift;
  let first = 0;
  for (let k = 0; ; k += step) {
    const a = upper[k];
    if (!a) return lift;
    const highest = Math.max(a.left.y, a.right.y) + reach;
    // Chords run from left to right: what lies behind this one lies behind all that follow.
    while ((lower[first]?.right.x ?? Number.POSITIVE_INFINITY) + shift + reach < a.left.x) first++;
    for (let i = first; ; i++) {
      const b = lower[i];
      if (!b || b.left.x + shift - reach > a.right.x) break;
      if (highest - Math.min(b.left.y, b.right.y) > lift)
        lift = Math.max(lift, chordSeparation(a, b, shift, reach));
    }
  }
}

function chordSeparation(
  { left: p, right: q }: RightwardChord,
  { left: r, right: s }: RightwardChord,
  shift: number,
  reach: number,
) {
  const [u, v] = [p.x - shift, q.x - shift];
  return Math.max(
    borderSeparation(u - s.x, p.y - s.y, u - r.x, p.y - r.y, reach),
    borderSeparation(u - r.x, p.y - r.y, v - r.x, q.y - r.y, reach),
    borderSeparation(u - s.x, p.y - s.y, v - s.x, q.y - s.y, reach),
    borderSeparation(v - s.x, q.y - s.y, v - r.x, q.y - r.y, reach),
  );
}

/** The maximum of y + √(reach² − x²) on a straight line from left to right, within reach of x = 0. */
function borderSeparation(fromX: number, fromY: number, toX: number, toY: number, reach: number): number {
  const [low, high] = [Math.max(fromX, -reach), Math.min(toX, reach)];
  if (low > high) return Number.NEGATIVE_INFINITY;
  const slope = (toY - fromY) / (toX - fromX);
  const x = Math.min(Math.max((reach * slope) / Math.sqrt(1 + slope * slope), low), high);
  return fromY + slope * (x - fromX) + Math.sqrt(Math.max(0, reach * reach - x * x));
}

/** The lift of one copy over another, mm, by their orientations and the shift along the board. */
export type Separation = (below: CopyOrientation, above: CopyOrientation, shift: number) => number;

/** Separations across the board, or along it with its two directions exchanged: at most a rectangle's side and the gap. */
export function cachedSeparation(
  footprint: Footprint,
  gap: number,
  direction: 'across' | 'along' = 'across',
): Separation {
  const known = new Map<CopyOrientation, Silhouette>();
  const pathsOf = (orientation: CopyOrientation): Footprint['paths'] => {
    const paths = orientedPaths(footprint, orientation);
    return direction === 'across' ? paths : paths.map((path) => transformPath(path, [0, 1, 1, 0, 0, 0]));
  };
  const silhouette = (orientation: CopyOrientation): Silhouette => {
    const found = known.get(orientation) ?? silhouetteOf(pathsOf(orientation));
    known.set(orientation, found);
    return found;
  };
  const enough = gap + (direction === 'across' ? footprint.width : footprint.length);
  return (below, above, shift) =>
    Math.min(minSeparation(silhouette(below), silhouette(above), shift, gap), enough);
}
