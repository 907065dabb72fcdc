import { chordsOf } from '../curves/chords.ts';
import type { Segment } from '../curves/piece.ts';
import { type Point, subtract } from '../curves/point.ts';
import { FIT_MM } from '../curves/tolerance.ts';

/**
 * Outlines are laid beside each other as chords within this of them, mm, and kept that much farther apart on both
 * sides: they never come closer than asked, and where they come closest they are at most four times this, 0.02 mm,
 * farther apart.
 */
export const LAID_WITHIN_MM = FIT_MM;

/** A stretch of straight edge from left to right. */
interface Chord {
  readonly left: Point;
  readonly right: Point;
}

/** An outline as its neighbours across the board meet it: the edges that look up and those that look down. */
export interface Sides {
  readonly upper: readonly Chord[];
  readonly lower: readonly Chord[];
}

/** A chord as good as upright meets nothing that its ends, which its neighbours share, do not; and has no slope in doubles. */
const UPRIGHT_MM = 1e-9;

/** The sides of a figure made of closed contiguous paths, either way round; they may overlap. */
export function sidesOf(paths: readonly (readonly Segment[])[]): Sides {
  const [upper, lower]: [Chord[], Chord[]] = [[], []];
  for (const path of paths) {
    const corners = chordsOf(path, LAID_WITHIN_MM);
    const clockwise = turnOf(corners) < 0;
    corners.slice(1).forEach((to, i) => {
      const from = corners[i]!;
      if (Math.abs(from.x - to.x) < UPRIGHT_MM) return;
      const forth = from.x < to.x;
      (forth === clockwise ? upper : lower).push(
        forth ? { left: from, right: to } : { left: to, right: from },
      );
    });
  }
  const fromLeft = (a: Chord, b: Chord): number => a.left.x - b.left.x;
  return { upper: upper.sort(fromLeft), lower: lower.sort(fromLeft) };
}

/** Twice the area, over 0 counter-clockwise. */
const turnOf = (corners: readonly Point[]): number =>
  corners.reduce((sum, p, i) => {
    const q = corners[(i + 1) % corners.length]!;
    return sum + p.x * q.y - q.x * p.y;
  }, 0);

/**
 * How far a figure must be lifted, mm, to lie above another with a gap between them all along, when it is also
 * shifted along: laid down from above, it stops there. Minus infinity where it would pass the other by.
 *
 * The greatest lift over all pairs of places, one on either figure. For two chords their differences fill a
 * parallelogram, and the lift over it is greatest on its border, where it has a closed form.
 */
export function liftOver(below: Sides, above: Sides, shift: number, gap: number): number {
  const reach = gap + 2 * LAID_WITHIN_MM;
  let lift = Number.NEGATIVE_INFINITY;
  let first = 0;
  for (const a of below.upper) {
    const highest = Math.max(a.left.y, a.right.y) + reach;
    // Chords run from left to right: what has fallen behind this one is behind all that follow.
    while (first < above.lower.length && above.lower[first]!.right.x + shift + reach < a.left.x) first++;
    for (let i = first; i < above.lower.length; i++) {
      const b = above.lower[i]!;
      if (b.left.x + shift - reach > a.right.x) break;
      if (highest - Math.min(b.left.y, b.right.y) > lift)
        lift = Math.max(lift, chordLift(a, b, shift, reach));
    }
  }
  return lift;
}

const chordLift = (a: Chord, b: Chord, shift: number, reach: number): number =>
  Math.max(
    borderLift(subtract(a.left, b.right), subtract(a.left, b.left), shift, reach),
    borderLift(subtract(a.left, b.left), subtract(a.right, b.left), shift, reach),
    borderLift(subtract(a.left, b.right), subtract(a.right, b.right), shift, reach),
    borderLift(subtract(a.right, b.right), subtract(a.right, b.left), shift, reach),
  );

/** The most of y + √(reach² − (x − shift)²) on a straight line from left to right, within reach of the shift. */
function borderLift(from: Point, to: Point, shift: number, reach: number): number {
  const [low, high] = [Math.max(from.x, shift - reach), Math.min(to.x, shift + reach)];
  if (low > high) return Number.NEGATIVE_INFINITY;
  const slope = (to.y - from.y) / (to.x - from.x);
  const x = Math.min(Math.max(shift + (reach * slope) / Math.hypot(1, slope), low), high);
  return from.y + slope * (x - from.x) + Math.sqrt(Math.max(0, reach ** 2 - (x - shift) ** 2));
}
