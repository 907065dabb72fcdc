import type { Footprint } from '../stock/footprint.ts';
import { type CopyOrientation, orientedPaths } from './copy-placement.ts';
import { minSeparation, type Silhouette, silhouetteOf } from './min-separation.ts';

/** How far a copy must be lifted over another, mm, by their orientations and the shift along the board. */
export type Separation = (below: CopyOrientation, above: CopyOrientation, shift: number) => number;

/** Separations of a part's copies; the width of a rectangle is always enough. */
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
