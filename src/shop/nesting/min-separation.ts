import { type Chord, flatten } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { cross, type Point, toPoint } from '../../curves/geometry/point.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';

/**
 * Outlines are laid beside each other as chords within this of them, mm, and kept that much farther apart on both
 * sides: they never come closer than asked, and where they come closest they are at most four times this, 0.02 mm,
 * farther apart.
 */
export const OUTLINE_TOLERANCE_MM = FIT_MM;

/** A chord from left to right. */
interface RightwardChord {
  readonly left: Point;
  readonly right: Point;
}

/** An outline as its neighbours across the board meet it: the edges that look up and those that look down. */
export interface Silhouette {
  readonly upper: readonly RightwardChord[];
  readonly lower: readonly RightwardChord[];
}

/** A chord as good as upright meets nothing that its ends, which its neighbours share, do not; and has no slope in doubles. */
const VERTICAL_MM = 1e-9;

/** The sides of a figure made of closed contiguous paths, either way round; they may overlap. */
export function silhouetteOf(paths: readonly (readonly Segment[])[]): Silhouette {
  const [upper, lower]: [RightwardChord[], RightwardChord[]] = [[], []];
  for (const path of paths) {
    const chords = flatten(path, OUTLINE_TOLERANCE_MM);
    const clockwise = signedDoubleArea(chords) < 0;
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

/** Twice the area, over 0 counter-clockwise. */
const signedDoubleArea = (chords: readonly Chord[]): number =>
  chords.reduce((sum, { from, to }) => sum + cross(from, to), 0);

/**
 * How far a figure must be lifted, mm, to lie above another with a gap between them all along, when it is also
 * shifted along: laid down from above, it stops there. Minus infinity where it would pass the other by.
 *
 * The greatest lift over all pairs of places, one on either figure. For two chords their differences fill a
 * parallelogram, and the lift over it is greatest on its border, where it has a closed form.
 */
export function minSeparation(below: Silhouette, above: Silhouette, shift: number, gap: number): number {
  // Every few edges first: once the lift is nearly known, most pairs are seen at a glance not to raise it.
  const some = greatestSeparation(below.upper, above.lower, shift, gap, {
    step: COARSE_STEP,
    lift: Number.NEGATIVE_INFINITY,
  });
  return greatestSeparation(below.upper, above.lower, shift, gap, { step: 1, lift: some });
}

/** Of so many edges one is enough for a first lift: fewer find too low a one, more take as long as all. */
const COARSE_STEP = 8;

function greatestSeparation(
  upper: readonly RightwardChord[],
  lower: readonly RightwardChord[],
  shift: number,
  gap: number,
  from: { readonly step: number; readonly lift: number },
): number {
  const reach = gap + 2 * OUTLINE_TOLERANCE_MM;
  let { lift } = from;
  let first = 0;
  for (let k = 0; k < upper.length; k += from.step) {
    const a = upper[k]!;
    const highest = Math.max(a.left.y, a.right.y) + reach;
    // Chords run from left to right: what has fallen behind this one is behind all that follow.
    while (first < lower.length && lower[first]!.right.x + shift + reach < a.left.x) first++;
    for (let i = first; i < lower.length; i++) {
      const b = lower[i]!;
      if (b.left.x + shift - reach > a.right.x) break;
      if (highest - Math.min(b.left.y, b.right.y) > lift)
        lift = Math.max(lift, chordSeparation(a, b, shift, reach));
    }
  }
  return lift;
}

/** Over the four sides of the parallelogram. Asked thousands of times a stack, so it makes nothing. */
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

/** The most of y + √(reach² − x²) on a straight line from left to right, within reach of x = 0. */
function borderSeparation(fromX: number, fromY: number, toX: number, toY: number, reach: number): number {
  const [low, high] = [Math.max(fromX, -reach), Math.min(toX, reach)];
  if (low > high) return Number.NEGATIVE_INFINITY;
  const slope = (toY - fromY) / (toX - fromX);
  const x = Math.min(Math.max((reach * slope) / Math.sqrt(1 + slope * slope), low), high);
  return fromY + slope * (x - fromX) + Math.sqrt(Math.max(0, reach * reach - x * x));
}
