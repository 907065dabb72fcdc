import type { Footprint } from '../stock/footprint.ts';
import { type CopyOrientation, orientedPaths } from './copy-placement.ts';
import { minSeparation, type Silhouette, silhouetteOf } from './min-separation.ts';

/** How far a copy that lies one way must be lifted over one that lies another, mm, by its shift along. */
export type Separation = (below: CopyOrientation, above: CopyOrientation, shift: number) => number;

/** The lifts of a part's copies over each other; what would clear a rectangle is always enough. */
export function cachedSeparation(footprint: Footprint, gap: number): Separation {
  const known = new Map<CopyOrientation, Silhouette>();
  const sides = (lie: CopyOrientation): Silhouette => {
    const found = known.get(lie) ?? silhouetteOf(orientedPaths(footprint, lie));
    known.set(lie, found);
    return found;
  };
  return (below, above, shift) =>
    Math.min(minSeparation(sides(below), sides(above), shift, gap), footprint.width + gap);
}
