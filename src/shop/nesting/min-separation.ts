import { type Chord, chordsOf } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { cross, type Point, pointOf } from '../../curves/geometry/point.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';

/**
 * Outlines are laid beside each other as chords within this of them, mm, and kept that much farther apart on both
 * sides: they never come closer than asked, and where they come closest they are at most four times this, 0.02 mm,
 * farther apart.
 */
export const LAID_WITHIN_MM = FIT_MM;

/** A chord from left to right. */
interface Stretch {
  readonly left: Point;
  readonly right: Point;
}

/** An outline as its neighbours across the board meet it: the edges that look up and those that look down. */
export interface Sides {
  readonly upper: readonly Stretch[];
  readonly lower: readonly Stretch[];
}

/** A chord as good as upright meets nothing that its ends, which its neighbours share, do not; and has no slope in doubles. */
const UPRIGHT_MM = 1e-9;

/** The sides of a figure made of closed contiguous paths, either way round; they may overlap. */
export function sidesOf(paths: readonly (readonly Segment[])[]): Sides {
  const [upper, lower]: [Stretch[], Stretch[]] = [[], []];
  for (const path of paths) {
    const chords = chordsOf(path, LAID_WITHIN_MM);
    const clockwise = turnOf(chords) < 0;
    for (const { from, to } of chords) {
      if (Math.abs(from.x - to.x) < UPRIGHT_MM) continue;
      const forth = from.x < to.x;
      (forth === clockwise ? upper : lower).push({
        left: pointOf(forth ? from : to),
        right: pointOf(forth ? to : from),
      });
    }
  }
  const fromLeft = (a: Stretch, b: Stretch): number => a.left.x - b.left.x;
  return { upper: upper.sort(fromLeft), lower: lower.sort(fromLeft) };
}

/** Twice the area, over 0 counter-clockwise. */
const turnOf = (chords: readonly Chord[]): number =>
  chords.reduce((sum, { from, to }) => sum + cross(from, to), 0);

/**
 * How far a figure must be lifted, mm, to lie above another with a gap between them all along, when it is also
 * shifted along: laid down from above, it stops there. Minus infinity where it would pass the other by.
 *
 * The greatest lift over all pairs of places, one on either figure. For two chords their differences fill a
 * parallelogram, and the lift over it is greatest on its border, where it has a closed form.
 */
export function liftOver(below: Sides, above: Sides, shift: number, gap: number): number {
  // Every few edges first: once the lift is nearly known, most pairs are seen at a glance not to raise it.
  const some = liftOf(below.upper, above.lower, shift, gap, { step: GLANCE, lift: Number.NEGATIVE_INFINITY });
  return liftOf(below.upper, above.lower, shift, gap, { step: 1, lift: some });
}

/** Of so many edges one is enough for a first lift: fewer find too low a one, more take as long as all. */
const GLANCE = 8;

function liftOf(
  upper: readonly Stretch[],
  lower: readonly Stretch[],
  shift: number,
  gap: number,
  from: { readonly step: number; readonly lift: number },
): number {
  const reach = gap + 2 * LAID_WITHIN_MM;
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
        lift = Math.max(lift, chordLift(a, b, shift, reach));
    }
  }
  return lift;
}

/** Over the four sides of the parallelogram. Asked thousands of times a stack, so it makes nothing. */
function chordLift(
  { left: p, right: q }: Stretch,
  { left: r, right: s }: Stretch,
  shift: number,
  reach: number,
) {
  const [u, v] = [p.x - shift, q.x - shift];
  return Math.max(
    borderLift(u - s.x, p.y - s.y, u - r.x, p.y - r.y, reach),
    borderLift(u - r.x, p.y - r.y, v - r.x, q.y - r.y, reach),
    borderLift(u - s.x, p.y - s.y, v - s.x, q.y - s.y, reach),
    borderLift(v - s.x, q.y - s.y, v - r.x, q.y - r.y, reach),
  );
}

/** The most of y + √(reach² − x²) on a straight line from left to right, within reach of x = 0. */
function borderLift(fromX: number, fromY: number, toX: number, toY: number, reach: number): number {
  const [low, high] = [Math.max(fromX, -reach), Math.min(toX, reach)];
  if (low > high) return Number.NEGATIVE_INFINITY;
  const slope = (toY - fromY) / (toX - fromX);
  const x = Math.min(Math.max((reach * slope) / Math.sqrt(1 + slope * slope), low), high);
  return fromY + slope * (x - fromX) + Math.sqrt(Math.max(0, reach * reach - x * x));
}
