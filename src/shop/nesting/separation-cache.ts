import type { Footprint } from '../stock/footprint.ts';
import { type Lie, lyingPaths } from './copy-placement.ts';
import { liftOver, type Sides, sidesOf } from './min-separation.ts';

/** How far a copy that lies one way must be lifted over one that lies another, mm, by its shift along. */
export type LiftOf = (below: Lie, above: Lie, shift: number) => number;

/** The lifts of a part's copies over each other; what would clear a rectangle is always enough. */
export function liftsOf(footprint: Footprint, gap: number): LiftOf {
  const known = new Map<Lie, Sides>();
  const sides = (lie: Lie): Sides => {
    const found = known.get(lie) ?? sidesOf(lyingPaths(footprint, lie));
    known.set(lie, found);
    return found;
  };
  return (below, above, shift) =>
    Math.min(liftOver(sides(below), sides(above), shift, gap), footprint.width + gap);
}
